#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "command/command.hpp"
#include "diag/diagnostic.hpp"
#include "fonts/fonts.hpp"
#include "job/job.hpp"
#include "keys/keys.hpp"
#include "plan/plan.hpp"
#include "text/catalog.hpp"

namespace gallipot::command {

/// Folders that hold templates/ and fonts/: the user's own first (--templates), then ours.
struct DataFolders {
    std::optional<std::filesystem::path> own_templates;
    std::filesystem::path templates;
    std::filesystem::path fonts;
};

/// Where our data is: ../share/gallipot from the program. Throws system::SystemError.
DataFolders find_data(const std::optional<std::filesystem::path>& own_templates);

/// One job, read and planned, with all that was found on the way.
struct Session {
    std::filesystem::path file;
    DataFolders data;
    std::optional<job::Job> job;
    std::optional<keys::Secret> secret;  ///< none when the job has no log of its own
    plan::Plan plan;                     ///< only meaningful when there are no errors
    diag::Diagnostics found;

    [[nodiscard]] bool good() const { return job.has_value() && !found.has_errors(); }
};

/// What may be done about a secret that is not there yet.
enum class SecretPolicy { create, only_read };

/// Reads and plans `file`. Without errors the plan is complete; the secret beside the job is made
/// when it is needed, missing and `policy` allows it.
Session open_session(const std::filesystem::path& file, const DataFolders& data,
                     SecretPolicy policy);

/// Prints what was found to standard error; the exit code that follows from it.
Exit tell(const Session& session, World& world);

/// The words of a language for this job. Errors in a template go into `session.found`.
const text::Catalog& catalog(Session& session, const std::string& language);

}  // namespace gallipot::command
