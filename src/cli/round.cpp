#include "app/round.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "app/render.hpp"
#include "app/visit_log.hpp"
#include "base/diag/utf8.hpp"
#include "cli/command.hpp"
#include "cli/day_option.hpp"
#include "cli/output.hpp"
#include "cli/person.hpp"
#include "cli/round_json.hpp"
#include "cli/table.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "cli/visit_log.hpp"
#include "papers/document/round_sheet.hpp"
#include "papers/document/verdict_words.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::cli {
namespace {

using text::Catalog;

struct Options {
    std::string job;
    std::optional<job::Date> on;
    std::string folder;
    std::string templates;
    std::vector<std::string> stations;
    bool json = false;
    app::PaperChoice choice;
};

std::string heading(const Catalog& words, const std::string& key, const Terminal& terminal) {
    return painted(terminal, Paint::heading, words(key)) + "\n\n";
}

std::string day_text(analysis::Day day, const Catalog& words) {
    return words.date(std::chrono::year_month_day(day));
}

std::string stops_table(const app::NextRound& round, const app::Session& session,
                        const app::Evidence& evidence, const Catalog& words,
                        const Terminal& terminal) {
    Table table({{words("report.round.station")},
                 {words("report.round.place")},
                 {words("visits.column.state")},
                 {words("report.round.do")}});
    for (const analysis::Stop& stop : round.stops) {
        const analysis::StationReport& station = evidence.report.stations.at(stop.station);
        bool first = true;
        for (const analysis::Task& task : analysis::tasks_of(station, stop)) {
            std::vector<analysis::Step> steps = task.steps;
            for (analysis::Step& step : steps) step.container = 0;
            std::string state;
            for (const analysis::ContainerState& container : station.containers)
                if (container.number == task.number)
                    state = document::states_text(container.open, words);
            table.row({station.container_id(task.number),
                       first ? session.job->stations.at(stop.station).where(words.tag()) : "",
                       state,
                       document::action_sentences(station, steps, evidence.report.as_of, words)});
            first = false;
        }
    }
    return table.text(terminal, words.language());
}

std::string make_table(const app::NextRound& round, const Catalog& words,
                       const Terminal& terminal) {
    Table table({{words("report.used.mix")},
                 {words("round.ingredient")},
                 {words("round.amount"), true},
                 {words("round.measure")}});
    for (const plan::Mix& mix : round.to_make.plan.mixes) {
        bool first = true;
        for (const plan::Ingredient& ingredient : mix.ingredients) {
            std::vector<std::string> measures;
            for (const plan::MeasureStep& step : ingredient.measures)
                measures.push_back(step.times == 1
                                       ? step.measure
                                       : std::to_string(step.times) + " × " + step.measure);
            table.row({first ? round.to_make.job->mix(mix.id)->title->in(words.tag()) : "",
                       ingredient.name, words.mass(ingredient.measured_mass),
                       words.list(measures)});
            first = false;
        }
    }
    return table.text(terminal, words.language());
}

std::string round_text(const app::NextRound& round, const app::Session& session,
                       const app::Evidence& evidence, const Catalog& words,
                       const Terminal& terminal) {
    std::string text = painted(terminal, Paint::heading,
                               words("round.title", {{"day", day_text(round.on, words)}})) +
                       "\n\n";
    if (round.stops.empty()) {
        text += words("round.nothing");
        if (round.later)
            text += " " + words("round.later", {{"day", day_text(*round.later, words)}});
        return text + '\n';
    }
    text += stops_table(round, session, evidence, words, terminal);
    const auto bring = document::to_bring(*session.job, evidence.report, round.stops,
                                          *round.to_make.job, round.to_make.plan, words);
    if (!bring.empty()) {
        text += '\n' + heading(words, "round.bring", terminal);
        for (const auto& each : bring) text += "  " + each.amount + "  " + each.what + '\n';
    }
    if (!round.to_make.plan.mixes.empty())
        text += '\n' + heading(words, "round.make", terminal) + make_table(round, words, terminal);
    if (!round.labels.empty())
        text += '\n' + words("round.print_labels", {{"ids", words.list(round.labels)}}) + '\n';
    return text;
}

/// Leaves the stops at these stations alone; false, and said why, where one is not there.
bool keep_stations(const std::vector<std::string>& names, const plan::Plan& plan,
                   app::Evidence& evidence, Environment& environment) {
    std::vector<std::string> ids, kept;
    for (const plan::Station& station : plan.stations) ids.push_back(station.id);
    for (const std::string& name : names) {
        if (const auto target = log::find_target(plan, name)) {
            kept.push_back(target->station);
            continue;
        }
        const std::string near = diag::nearest(name, ids);
        complain(environment) << "--stations: the job has no station " << diag::quoted(name)
                              << (near.empty() ? "" : "; did you mean '" + near + "'?") << '\n';
        return false;
    }
    for (analysis::Round& round : evidence.rounds)
        std::erase_if(round.stops, [&](const analysis::Stop& stop) {
            const std::string& id = plan.stations.at(stop.station).id;
            return std::ranges::find(kept, id) == kept.end();
        });
    std::erase_if(evidence.rounds,
                  [](const analysis::Round& round) { return round.stops.empty(); });
    return true;
}

ExitCode run(const Options& options, Environment& environment) {
    if (!options.folder.empty()) refuse_standard_output("-o", options.folder);
    app::Session session = app::open_session(
        options.job, app::find_data(options.templates),
        options.folder.empty() ? app::SecretPolicy::only_read : app::SecretPolicy::create,
        options.on);
    if (!session.good()) return tell(session, environment);
    if (!speaks(session, options.choice.languages, environment)) return ExitCode::wrong_usage;
    std::optional<analysis::Day> on;
    if (options.on) on = analysis::Day(std::chrono::local_days(*options.on));
    const analysis::Day today = analysis::day_of(app::zone_of(session).local(app::now()));
    app::Evidence evidence = app::read_evidence(session, on.value_or(today));
    NamedUnreadable name(environment);
    for (const auto& entry : evidence.unreadable) name(entry);
    if (!options.stations.empty() &&
        !keep_stations(options.stations, session.plan, evidence, environment))
        return ExitCode::wrong_usage;

    app::NextRound round = app::next_round(session, evidence, on);
    const Catalog& words = options.choice.languages.empty()
                               ? words_for_person(session, environment)
                               : session.words(options.choice.languages.front());
    if (round.to_make.found.has_errors()) return tell(round.to_make, environment);
    if (options.json)
        environment.out << round_json(round, session, evidence, words);
    else if (options.folder.empty())
        environment.out << round_text(round, session, evidence, words,
                                      terminal_of_results(environment));
    if (options.folder.empty()) return tell(round.to_make, session.found, environment);
    const app::Resources resources = resources_of(environment);
    const app::Papers papers =
        app::round_papers(round, session, evidence, resources, options.choice);
    const ExitCode exit = tell(round.to_make, session.found, environment);
    if (exit != ExitCode::ok) return exit;
    tell_of_new_secret(session, environment);
    for (const auto& file : app::write_papers(papers, options.folder, resources, [] {}))
        if (!options.json) environment.out << diag::printable(file.string()) << '\n';
    return exit;
}

}  // namespace

void add_round(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command =
        app.add_subcommand("round", "The next round: whom to see, what to do, make and print");
    auto options = std::make_shared<Options>();
    app::PaperChoice& choice = options->choice;
    command->add_option("JOB", options->job, "The job file")->required();
    add_day_option(*command, options->on,
                   "The round on that day, 2027-03-18; left out: the next one");
    command->add_option("-o,--output", options->folder,
                        "Folder for its papers: round.pdf, cards.pdf, labels.pdf");
    command->add_option("--stations", options->stations, "At these stations alone")
        ->delimiter(',')
        ->allow_extra_args(false);
    command->add_flag("--json", options->json, "As JSON, for programs");
    command->add_option("--language", choice.languages, "Only in these of the job's languages")
        ->delimiter(',');
    command->add_option("--stock", choice.stock, "Label stock instead of the job's");
    command->add_option("--start-at", choice.start_at, "First free label of a part-used sheet")
        ->check(CLI::Range(1, 1000))
        ->capture_default_str();
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, label sheets and designs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] { return run(*options, environment); };
    });
}

}  // namespace gallipot::cli
