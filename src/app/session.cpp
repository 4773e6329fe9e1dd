#include "app/session.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <iterator>
#include <set>
#include <tuple>

#include "app/clock_times.hpp"
#include "app/tables.hpp"
#include "app/visit_log.hpp"
#include "base/diag/utf8.hpp"
#include "base/strings/dates.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "base/system/parallel.hpp"
#include "domain/job/accept.hpp"
#include "domain/job/on_day.hpp"
#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "papers/text/tags.hpp"
#include "tracking/log/log.hpp"
#include "tracking/log/zone.hpp"

namespace gallipot::app {
namespace fs = std::filesystem;
namespace {

/// Codes carry a key when they open a log of ours, not a page of the user's own.
bool needs_secret(const job::Job& job) {
    return job.log.address && !keys::own_page(**job.log.address);
}

/// What a station's code holds when it opens something; the text of its facts is the label's to
/// write, in the words of the language.
std::string link_for(const Session& session, const job::Station& station) {
    const job::Job& job = *session.job;
    if (!job.log.address) return {};
    if (!needs_secret(job)) return keys::link(**job.log.address, *station.id, "");
    if (!session.secret) return {};
    return keys::link(**job.log.address, *station.id,
                      keys::station_key(*session.secret, *station.id));
}

void check_languages(Session& session) {
    const std::set<std::string> there = languages_there(session.data);
    for (const auto& language : session.job->languages) {
        // "de-AT" is written in the words of "de".
        const auto is_there = [&](const std::string& name) { return there.contains(name); };
        if (!text::catalog_for(*language, is_there).empty()) continue;
        session.found.error(
            "unknown-language", language.place,
            diag::say("there are no texts in the language '{}'", *language),
            diag::say("choose among {}, or add text/{}.yaml to a folder of your own and name the "
                      "folder with --templates",
                      fmt::join(there, ", "), *language));
    }
}

/// The job's reader checked the syntax; here, that the time zone exists.
void check_time_zone(Session& session) {
    const auto& zone = session.job->time_zone;
    if (!zone || log::Zone::find(**zone)) return;
    const std::string near = diag::nearest(**zone, log::Zone::names());
    session.found.error("unknown-time-zone", zone->place,
                        diag::say("there is no time zone '{}'", **zone),
                        near.empty() ? diag::say("write its IANA name, as in Australia/Sydney")
                                     : diag::say("did you mean '{}'?", near));
}

}  // namespace

std::vector<std::string> text_folders(const DataFolders& data) {
    std::vector<std::string> folders{data.templates.string()};
    if (data.own_templates) folders.push_back(data.own_templates->string());
    return folders;
}

std::set<std::string> languages_there(const DataFolders& data) {
    std::set<std::string> there;
    for (const std::string& folder : text_folders(data))
        for (const std::string& language : text::languages(folder)) there.insert(language);
    return there;
}

bool has_log(const Session& session) {
    std::error_code ignored;
    return fs::exists(log::file_beside(session.file), ignored);
}

fs::path secret_path(const fs::path& job_file) {
    return fs::path(job_file).replace_extension(".secret");
}

void protect_files_of(const fs::path& job_file) {
    system::protect(job_file, "the job");
    system::protect(secret_path(job_file), "the secret of this job");
    const std::string log = log::file_beside(job_file).string();
    for (const char* end : {"", "-wal", "-shm", "-journal"})
        system::protect(log + end, "the visit log of this job");
}

namespace {

/// Whoever reads the secret can make every link of the job.
void check_rights(const diag::SourcePtr& secret, diag::Diagnostics& out) {
    const diag::Place whole_file{secret, 0, 0, 1};
    switch (system::rights_of(secret->name)) {
        case system::Rights::owner_only:
            return;
        case system::Rights::others_may_read:
            out.warning("secret-not-private", whole_file,
                        "others on this machine may use the secret behind the codes",
                        fmt::format("chmod 600 {}", diag::for_shell(secret->name)));
            return;
        case system::Rights::owned_by_another:
            out.warning(
                "secret-not-private", whole_file,
                "the secret behind the codes belongs to another user, who can use it",
                "run gallipot as that user, or copy job and secret to a folder of your own");
    }
}

}  // namespace

void read_secret(Session& session, SecretPolicy policy) {
    const fs::path path = secret_path(session.file);
    auto text = system::read_if_there(path);
    if (!text) {
        const keys::Secret secret = keys::make_secret();
        session.secret_is_new = true;
        // A secret that is not kept would make a link that no later run knows.
        if (policy == SecretPolicy::only_read) return;
        if (system::write_new(path, keys::print(secret), system::Privacy::owner_only)) {
            session.secret = secret;
            return;
        }
        // Another gallipot was quicker: what it wrote holds.
        session.secret_is_new = false;
        text = system::read_file(path);
    }
    const auto source = std::make_shared<const diag::Source>(diag::Source{path.string(), *text});
    session.secret = keys::parse(source, session.found);
    check_rights(source, session.found);
}

const text::Catalog& Session::words(const std::string& language) {
    const auto known = catalogs_.find(language);
    if (known != catalogs_.end()) return known->second;
    const std::string region = job ? *job->help.region : std::string();
    text::Catalog& read =
        catalogs_.try_emplace(language, text_folders(data), language, region, found).first->second;
    if (job) read.show_in(job->units);
    check_own_words(read);
    return read;
}

void Session::check_own_words(const text::Catalog& read) {
    if (!data.own_templates || found.has_errors()) return;
    const text::Catalog ours(data.templates.string(), "en", job ? *job->help.region : std::string(),
                             found);
    text::compare(ours, read, found);
}

void Session::read_words(const std::vector<std::string>& languages, std::size_t threads) {
    std::vector<std::string> unread;
    for (const auto& language : languages)
        if (catalogs_.find(language) == catalogs_.end()) unread.push_back(language);
    const std::string region = job ? *job->help.region : std::string();
    std::vector<std::optional<text::Catalog>> read(unread.size());
    std::vector<diag::Diagnostics> faults(unread.size());
    system::in_parallel(unread.size(), threads, [&](std::size_t i) {
        read[i].emplace(text_folders(data), unread[i], region, faults[i]);
        if (job) read[i]->show_in(job->units);
    });
    for (std::size_t i = 0; i < unread.size(); ++i) {
        found.append(faults[i]);
        check_own_words(catalogs_.try_emplace(unread[i], std::move(*read[i])).first->second);
    }
}

namespace {

/// Puts the job as it is on the day in the place of what was read.
void choose_day(Session& session, std::optional<job::Date> on) {
    if (!job::changes_over_time(*session.job)) return;
    session.day =
        on ? *on : job::Date{std::chrono::floor<std::chrono::days>(zone_of(session).local(now()))};
    session.written = std::make_shared<const job::Job>(*std::move(session.job));
    session.job = job::on_day(*session.written, *session.day);
    job::advise(*session.job, session.found);
}

plan::Plan plan_of(const Session& session, const job::Job& job, diag::Diagnostics& out) {
    return plan::make_plan(
        job, [&](const job::Station& station) { return link_for(session, station); }, out);
}

}  // namespace

Session open_session(const fs::path& file, const DataFolders& data, SecretPolicy policy,
                     std::optional<job::Date> on) {
    Session session;
    session.file = file;
    session.data = data;
    session.asked_for = on;
    const auto source = std::make_shared<const diag::Source>(
        diag::Source{file.string(), system::read_named_file(file)});
    protect_files_of(file);
    session.job = job::read_job(source, session.found, tables_beside(file));
    if (session.job) {
        check_languages(session);
        check_time_zone(session);
        if (session.good()) check_clock_times(session, zone_of(session));
    }
    if (!session.good()) return session;
    choose_day(session, on);
    session.who = safety::who_to_call(session.job->help, session.found);
    if (needs_secret(*session.job)) read_secret(session, policy);
    session.plan = plan_of(session, *session.job, session.found);
    apply_accepted(session);
    return session;
}

std::optional<DayOfJob> job_on(const Session& session, job::Date day) {
    DayOfJob result;
    result.job = job::on_day(*session.written, day);
    diag::Diagnostics found;
    result.plan = plan_of(session, result.job, found);
    job::take_accepted(result.job, found);
    if (found.has_errors()) return std::nullopt;
    return result;
}

void check_other_days(Session& session, std::size_t maximum_planned) {
    if (!session.written) return;
    const std::vector<job::Date> days = job::days_of_change(*session.written);
    const auto today = std::ranges::upper_bound(days, *session.day) - days.begin();
    std::set<std::tuple<std::string, const diag::Source*, int>> told;
    const auto is_new = [&](const diag::Diagnostic& each) {
        return told.emplace(each.code, each.place.source.get(), each.place.line).second;
    };
    for (const auto& each : session.found.in_order()) is_new(each);
    for (const auto& each : session.accepted) is_new(each);
    std::size_t planned = 0;
    for (std::ptrdiff_t state = 0; state <= std::ssize(days); ++state) {
        if (state == today) continue;
        // The first state is that before any change.
        const job::Date day = state == 0
                                  ? job::Date{std::chrono::sys_days(days[0]) - std::chrono::days(1)}
                                  : days[static_cast<std::size_t>(state - 1)];
        const std::string date = strings::iso_date(day);
        planned += session.written->stations.size();
        if (planned > maximum_planned) {
            session.found.warning("days-not-checked", session.job->title.place,
                                  diag::say("the job as it is from {} on is not checked: it "
                                            "changes on too many days",
                                            date),
                                  "check those days one by one, with --on");
            return;
        }
        const job::Job then = job::on_day(*session.written, day);
        diag::Diagnostics found;
        job::advise(then, found);
        plan_of(session, then, found);
        for (diag::Diagnostic& each : found.in_order()) {
            if (!is_new(each)) continue;
            each.message = state == 0 ? diag::say("{} (until {})", each.message, date)
                                      : diag::say("{} (as from {})", each.message, date);
            session.found.add(std::move(each));
        }
    }
}

void apply_accepted(Session& session) {
    if (!session.job) return;
    std::ranges::move(job::take_accepted(*session.job, session.found),
                      std::back_inserter(session.accepted));
}

}  // namespace gallipot::app
