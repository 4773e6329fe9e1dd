#include "tracking/log/log.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <functional>
#include <memory>
#include <ostream>

#include "app/photo_export.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "cli/command.hpp"
#include "cli/messages.hpp"
#include "cli/output.hpp"
#include "cli/person.hpp"
#include "cli/table.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "cli/visit_log.hpp"
#include "tracking/evidence/evidence.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
    std::string job;
    bool json = false;
    bool csv = false;
    bool all = false;
    bool reports = false;
    std::string csv_file;
    std::string backup;
    std::string photos;
    std::string wrong_recipe;
};

/// Nothing was visited yet, or the job is somewhere else.
bool has_log(const fs::path& job, Environment& environment) {
    std::error_code ignored;
    if (fs::exists(log::file_beside(job), ignored)) return true;
    if (!fs::exists(job, ignored))
        system::read_named_file(job);  // throws, and says what may have been meant
    complain(environment) << "no visit is recorded yet\n";
    return false;
}

std::string number(const std::optional<int>& count) {
    return count ? std::to_string(*count) : std::string();
}

/// On one line, whatever was typed or came with the file.
std::string one_line(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return diag::printable(text);
}

void print_table(const log::Log& visits, bool all, Environment& environment) {
    diag::Diagnostics found;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(app::find_data(), environment, found);
    const auto say = [&](const char* key) { return words(std::string("terminal.log.") + key); };
    std::vector<Table::Column> columns{{say("number"), true},
                                       {say("station"), false, true},
                                       {say("time"), false, true},
                                       {say("by")},
                                       {say("seen"), true},
                                       {say("young"), true},
                                       {say("minutes"), true},
                                       {say("trap_nights"), true},
                                       {say("dead"), true},
                                       {say("left"), true},
                                       {say("feeding")},
                                       {say("state")},
                                       {say("did")},
                                       {say("note")}};
    if (all) columns.push_back({say("corrects"), true});
    Table table(columns);
    NamedUnreadable unreadable(environment);
    visits.each(
        all ? log::Log::Which::all : log::Log::Which::active,
        [&](const log::Entry& entry) {
            const visit::Visit& visit = entry.visit;
            std::vector<std::string> cells{
                std::to_string(entry.number),
                one_line(log::print_target(visit)),
                log::print_time(visit.time),
                one_line(visit.by),
                number(visit.seen),
                number(visit.young),
                number(visit.minutes),
                number(visit.trap_nights),
                number(visit.dead),
                visit.level_percent ? words.percent(*visit.level_percent / 100.0) : "",
                visit.feeding ? words(*visit.feeding ? "web.feeding.yes" : "web.feeding.no") : "",
                log::print_states(visit.state),
                log::print_dids(visit.did),
                entry.withdrawn ? say("taken_out") : one_line(visit.note)};
            if (all)
                cells.push_back(entry.corrects ? std::to_string(*entry.corrects) : std::string());
            table.row(std::move(cells));
            return true;
        },
        std::ref(unreadable));
    table.drop_empty({5, 6, 7, 10});
    environment.out << (table.empty()
                            ? say("none") + '\n'
                            : table.text(terminal_of_results(environment), words.language()));
}

void print_json(const log::Log* visits, Environment& environment) {
    environment.out << "{ \"visits\": [";
    const char* between = "\n";
    NamedUnreadable unreadable(environment);
    if (visits != nullptr)
        visits->each(
            log::Log::Which::active,
            [&](const log::Entry& entry) {
                environment.out << between << "  " << log::json_object(entry.visit);
                between = ",\n";
                return true;
            },
            std::ref(unreadable));
    environment.out << (between[0] == ',' ? "\n] }\n" : "] }\n");
}

void print_csv(const log::Log* visits, Environment& environment) {
    environment.out << log::csv_heading();
    NamedUnreadable unreadable(environment);
    if (visits != nullptr)
        visits->each(
            log::Log::Which::active,
            [&](const log::Entry& entry) {
                environment.out << log::csv_line(entry.visit);
                return true;
            },
            std::ref(unreadable));
}

/// More than anybody looks through; the newest of them.
constexpr std::size_t maximum_reports = 10'000;

void print_reports_json(const log::Log& visits, Environment& environment) {
    environment.out << "{ \"reports\": [";
    const char* between = "\n";
    for (const log::NeighbourReport& report : visits.reports(maximum_reports)) {
        environment.out << between << "  " << log::json_object(report);
        between = ",\n";
    }
    environment.out << (between[0] == ',' ? "\n] }\n" : "] }\n");
}

/// Newest first, as on the overview.
void print_reports(const log::Log& visits, Environment& environment) {
    diag::Diagnostics found;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(app::find_data(), environment, found);
    const auto say = [&](const char* key) { return words(std::string("terminal.log.") + key); };
    Table table({{say("number"), true},
                 {say("station"), false, true},
                 {say("time"), false, true},
                 {say("state")},
                 {say("note")},
                 {words("web.overview.looked_at")}});
    for (const log::NeighbourReport& report : visits.reports(maximum_reports)) {
        std::vector<std::string> what;
        if (report.spilt) what.push_back(words("web.tell.spilt"));
        if (report.missing) what.push_back(words("web.tell.missing"));
        if (report.pests) what.push_back(words("web.tell.pests"));
        table.row({std::to_string(report.number), one_line(report.station),
                   log::print_time(report.time), what.empty() ? "" : words.list(what),
                   one_line(report.words),
                   words(report.read ? "web.feeding.yes" : "web.feeding.no")});
    }
    environment.out << (table.empty()
                            ? say("no_reports") + '\n'
                            : table.text(terminal_of_results(environment), words.language()));
}

ExitCode import_file(const Options& options, Environment& environment) {
    app::Session session =
        app::open_session(options.job, app::find_data(), app::SecretPolicy::only_read);
    if (!session.good()) return tell(session, environment);
    constexpr std::size_t maximum = 256u << 20;
    const auto source = std::make_shared<const diag::Source>(
        diag::Source{options.csv_file, system::read_named_file(options.csv_file, maximum)});
    diag::Diagnostics found;
    const log::Zone zone = app::zone_of(session);
    const log::Instant clock = app::now();
    const auto visits = log::read_visits(source, session.plan, zone, zone.local(clock), found);
    environment.err << print(found, session.data, environment);
    if (found.has_errors()) {
        complain(environment) << "nothing was imported; mend the file and import it again\n";
        return ExitCode::bad_input;
    }
    log::Log into = app::open_log(session, log::Opening::to_write);
    const std::size_t added =
        into.add_all(visits, clock, evidence::facts_of(*session.job, session.plan));
    const text::Catalog& words = words_for_person(session, environment);
    const auto n = static_cast<std::int64_t>(added);
    const auto before = static_cast<std::int64_t>(visits.size() - added);
    environment.out << (before == 0
                            ? words("terminal.log.added", {{"n", n}})
                            : words("terminal.log.added_some", {{"n", n}, {"count", before}}))
                    << '\n';
    return ExitCode::ok;
}

/// Notes that a mix was always made as the job makes it now.
ExitCode note_recipe(const Options& options, Environment& environment) {
    app::Session session =
        app::open_session(options.job, app::find_data(), app::SecretPolicy::only_read);
    if (!session.good()) return tell(session, environment);
    const std::string& mix = options.wrong_recipe;
    auto facts = evidence::facts_of(*session.job, session.plan);
    std::vector<std::string> ids;
    std::erase_if(facts, [](const log::Fact& fact) { return fact.kind != log::Fact::Kind::mix; });
    for (const log::Fact& fact : facts) ids.push_back(fact.name);
    std::erase_if(facts, [&](const log::Fact& fact) { return fact.name != mix; });
    if (facts.empty()) {
        const std::string near = diag::nearest(mix, ids);
        complain(environment) << "the job has no mix " << diag::quoted(mix) << "; "
                              << (near.empty() ? "its mixes stand under `mixes` in the job file"
                                               : "did you mean '" + near + "'?")
                              << '\n';
        return ExitCode::bad_input;
    }
    if (!has_log(options.job, environment)) return ExitCode::bad_input;
    log::Log visits = app::open_log(session.file, log::Opening::to_write);
    visits.note_from_start(facts, app::now());
    environment.out << words_for_person(session, environment)("terminal.log.recipe_was_wrong",
                                                              {{"mix", diag::printable(mix)}})
                    << '\n';
    return ExitCode::ok;
}

void write_photos(const log::Log& visits, const std::string& folder, Environment& environment) {
    const app::PhotoExport done = app::export_photos(visits, folder);
    for (const std::string& name : done.gone)
        warn(environment) << "this photo is not among those of the log any more, or not as it was: "
                          << name << '\n';
    diag::Diagnostics found;  // our own texts, which the tests read
    const auto n = static_cast<std::int64_t>(done.written);
    const auto before = static_cast<std::int64_t>(done.there_before);
    environment.out << words_for_person(app::find_data(), environment, found)(
                           before == 0 ? "terminal.log.photos" : "terminal.log.photos_some",
                           {{"n", n}, {"count", before}, {"file", diag::printable(folder)}})
                    << '\n';
}

ExitCode show(const Options& options, Environment& environment) {
    app::protect_files_of(options.job);
    if (!options.backup.empty()) {
        refuse_standard_output("--backup", options.backup);
        system::check_output_name(options.backup);
    }
    if (!options.photos.empty()) refuse_standard_output("--photos", options.photos);
    if (!has_log(options.job, environment)) {
        if (!options.backup.empty() || !options.photos.empty()) return ExitCode::bad_input;
        if (options.json && options.reports) environment.out << "{ \"reports\": [] }\n";
        if (options.json && !options.reports) print_json(nullptr, environment);
        if (options.csv) print_csv(nullptr, environment);
        return ExitCode::ok;
    }
    const log::Log visits = app::open_log(options.job, log::Opening::to_read);
    const auto damage = visits.damage();
    if (damage) {
        complain(environment) << *damage << '\n';
        if (!options.backup.empty() || !options.photos.empty()) return ExitCode::system_failed;
        warn(environment) << "what can still be read of it follows\n";
    }
    if (!options.backup.empty()) {
        for (const log::PhotoId& photo : visits.back_up(options.backup))
            warn(environment) << "a photo that the log names is not among its photos any more, and "
                                 "not in the copy: "
                              << photo << ".jpg\n";
        diag::Diagnostics found;
        environment.out << words_for_person(app::find_data(), environment, found)(
                               "terminal.log.copied", {{"file", diag::printable(options.backup)}})
                        << '\n';
    } else if (!options.photos.empty()) {
        write_photos(visits, options.photos, environment);
    } else if (options.reports) {
        options.json ? print_reports_json(visits, environment) : print_reports(visits, environment);
    } else if (options.json) {
        print_json(&visits, environment);
    } else if (options.csv) {
        print_csv(&visits, environment);
    } else {
        print_table(visits, options.all, environment);
    }
    return damage ? ExitCode::system_failed : ExitCode::ok;
}

}  // namespace

void add_log(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("log", "The visits recorded so far");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    auto* json = command->add_flag("--json", options->json, "As JSON");
    auto* csv = command->add_flag("--csv", options->csv, "As CSV (RFC 4180)");
    auto* all =
        command->add_flag("--all", options->all, "Also what was corrected or taken out since");
    auto* reports = command->add_flag("--reports", options->reports,
                                      "What neighbours reported, which stands beside the visits");
    auto* import_option =
        command->add_option("--import", options->csv_file,
                            "Add the visits of a CSV file; those already there stay one");
    auto* backup = command->add_option("--backup", options->backup,
                                       "Copy the log to a file, while it is served too; its "
                                       "photos to a folder beside it");
    auto* photos = command->add_option("--photos", options->photos,
                                       "Write the photos of the visits to a folder, a file each");
    auto* wrong = command->add_option("--recipe-was-wrong", options->wrong_recipe,
                                      "Note that this mix was made as the job has it now from the "
                                      "start: what was noted before was a slip");
    for (auto* one : {json, csv, all, import_option, backup, photos, wrong})
        for (auto* other : {json, csv, all, import_option, backup, photos, wrong})
            if (one != other) one->excludes(other);
    for (auto* other : {csv, all, import_option, backup, photos, wrong}) reports->excludes(other);
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            if (!options->wrong_recipe.empty()) return note_recipe(*options, environment);
            return options->csv_file.empty() ? show(*options, environment)
                                             : import_file(*options, environment);
        };
    });
}

}  // namespace gallipot::cli
