#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/keys/keys.hpp"

namespace gallipot::app {

/// Folders that hold templates/ and fonts/: the user's own first (--templates), then ours.
struct DataFolders {
    std::optional<std::filesystem::path> own_templates;
    std::filesystem::path templates;
    std::filesystem::path fonts;
    std::filesystem::path examples;
};

/// The folder above bin/, in which the program stands.
std::filesystem::path installed_in();

/// Where our data is: share/gallipot in there. Throws system::SystemError.
/// `own_templates` is empty when the user gave none.
DataFolders find_data(const std::filesystem::path& own_templates = {});

/// A file of templates/web: the user's own, else ours. Throws system::SystemError.
std::string web_file(const DataFolders& data, const char* file);

/// The folders with texts: ours give every text, the user's own words some of it anew.
std::vector<std::string> text_folders(const DataFolders& data);

/// The languages that there are texts in.
std::set<std::string> languages_there(const DataFolders& data);

/// What may be done about a secret that is needed and not there yet.
enum class SecretPolicy { create, only_read };

/// One job, read and planned, with all that was found on the way.
struct Session {
    std::filesystem::path file;
    DataFolders data;
    std::optional<job::Job> job;  ///< as it is on `day`
    /// Of a job that changes over time, else none: the day it is told of, and the job as the file
    /// has it.
    std::optional<job::Date> day;
    std::shared_ptr<const job::Job> written;
    std::optional<job::Date> asked_for;  ///< the day that whoever opened it named
    std::optional<keys::Secret> secret;  ///< none when the codes need no keys
    bool secret_is_new = false;
    safety::WhoToCall who;
    plan::Plan plan;  ///< only meaningful when there are no errors
    diag::Diagnostics found;
    std::vector<diag::Diagnostic> accepted;  ///< taken out of `found`, because the job accepts them

    [[nodiscard]] bool good() const { return job.has_value() && !found.has_errors(); }
    /// Reads the words of these languages, several at a time. Errors in a file go to `found`.
    void read_words(const std::vector<std::string>& languages, std::size_t threads);
    /// The words of one of the job's languages; read once. Errors in a file go to `found`.
    const text::Catalog& words(const std::string& language);

  private:
    /// Shipped catalogs are complete (tested); a user's own may lack keys.
    void check_own_words(const text::Catalog& read);

    std::map<std::string, text::Catalog> catalogs_;
};

/// Reads and plans `file` as it is on the day `on`; left out: today, by the clock in the job's time
/// zone. A job without `changes` and `until` is the same on every day. The secret beside the job
/// (JOB.secret) is made when the job's codes need one, it is missing and `policy` allows. Throws
/// system::SystemError.
Session open_session(const std::filesystem::path& file, const DataFolders& data,
                     SecretPolicy policy, std::optional<job::Date> on = {});

/// A job and its plan.
struct DayOfJob {
    job::Job job;
    plan::Plan plan;
};
/// Those of another day than the session was opened for, of a job that changes over time; none
/// where something is wrong with the job on that day.
std::optional<DayOfJob> job_on(const Session& session, job::Date day);

/// Plans the job as it is on all other days, too, so that what is wrong then is known today: it
/// goes to `session.found`. At most so many stations are planned on all those days together, which
/// takes a few seconds; then a warning says from when on nothing was checked.
void check_other_days(Session& session, std::size_t maximum_planned = 500'000);

/// Reads the secret, or makes one if that is allowed and there is none. Errors in the file go to
/// `session.found`.
void read_secret(Session& session, SecretPolicy policy);

/// Moves what the job accepts from `found` to `accepted`.
void apply_accepted(Session& session);

/// Whether there is a visit log beside the job.
bool has_log(const Session& session);

/// Where the secret of a job lies.
std::filesystem::path secret_path(const std::filesystem::path& job_file);

/// No output of this run replaces the job, its secret or its log, nor takes their names.
void protect_files_of(const std::filesystem::path& job_file);

}  // namespace gallipot::app
