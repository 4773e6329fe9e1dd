#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "base/diag/utf8.hpp"
#include "cli/command.hpp"
#include "cli/session.hpp"
#include "cli/terminal.hpp"
#include "cli/visit_log.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::command {
namespace {

struct Options {
    std::string job;
    std::string station;
    std::string seen, dead, level, note, by, at;
    std::vector<std::string> state, did;
    std::int64_t corrects = 0;
    bool withdraw = false;
};

[[noreturn]] void refuse(const std::string& option, const std::string& value,
                         const std::string& instead) {
    throw CLI::ValidationError(option, "'" + value + "' will not do; " + instead);
}

std::optional<int> read_count(const std::string& option, const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto count = log::parse_count(text);
    if (!count)
        refuse(option, text, fmt::format("give a whole number, 0 to {}", log::most_counted));
    return count;
}

std::string read_text(const std::string& option, const std::string& text, std::size_t longest,
                      bool lines) {
    std::string tidied = log::tidy(text);
    if (log::find_fault(tidied, longest, lines) != log::TextFault::none)
        refuse(
            option, "this text",
            fmt::format("give at most {} characters of text, none that cannot be shown", longest));
    return tidied;
}

std::string joined(const std::vector<std::string>& words) {
    return fmt::format("{}", fmt::join(words, " "));
}

/// Everything but the station and the time, which need the job.
visit::Visit read_options(const Options& options) {
    visit::Visit visit;
    visit.seen = read_count("--seen", options.seen);
    visit.dead = read_count("--dead", options.dead);
    if (!options.level.empty()) {
        visit.level_percent = log::parse_level(options.level);
        if (!visit.level_percent)
            refuse("--level", options.level, "give percent, or full, 3/4, 1/2, 1/4 or empty");
    }
    std::string stranger;
    const auto states = log::parse_states(joined(options.state), stranger);
    if (!states) refuse("--state", stranger, "give any of: " + log::state_words());
    visit.state = *states;
    const auto dids = log::parse_dids(joined(options.did), stranger);
    if (!dids) refuse("--did", stranger, "give any of: " + log::did_words());
    visit.did = *dids;
    visit.note = read_text("--note", options.note, log::longest_note, true);
    visit.by = read_text("--by", options.by, log::longest_name, false);
    if (options.withdraw && options.corrects == 0)
        throw CLI::ValidationError("--withdraw", "say which entry, with --corrects NUMBER");
    if (!options.withdraw && !log::says_something(visit))
        throw CLI::ValidationError(
            "visit", "it says nothing; give --seen, --dead, --level, --state, --did or --note");
    return visit;
}

Exit unknown_station(const Session& session, const std::string& written, World& world) {
    std::vector<std::string> ids;
    for (const auto& station : session.plan.stations) ids.push_back(station.id);
    const std::string near = diag::nearest(written, ids);
    complain(world) << "the job has no station " << diag::quoted(written) << "; "
                    << (near.empty() ? "see gallipot plan for those it has"
                                     : "did you mean '" + near + "'?")
                    << '\n';
    return Exit::bad_input;
}

Exit visit(const Options& options, visit::Visit visit, World& world) {
    Session session = open_session(options.job, find_data(), SecretPolicy::only_read);
    if (!session.good()) return tell(session, world);
    const auto target = log::find_target(session.plan, options.station);
    if (!target) return unknown_station(session, options.station, world);
    visit.station = target->station;
    visit.container = target->container;
    const log::Zone zone = zone_of(session);
    const log::Instant clock = now();
    visit.time = zone.local(clock);
    if (!options.at.empty()) {
        visit.time = *log::parse_time(options.at, zone);
        if (visit.time > zone.local(clock) + std::chrono::minutes(5))
            warn(world) << log::print_time(visit.time)
                        << " is still to come; recorded all the same\n";
    }
    log::Log visits = open_log(session.file);
    log::Draft draft{visit, "", std::nullopt, options.withdraw};
    if (options.corrects != 0) draft.corrects = options.corrects;
    const log::Recorded recorded = visits.record(draft, clock);
    switch (recorded.outcome) {
        case log::Outcome::recorded:
            break;
        case log::Outcome::corrected_since:
            complain(world) << "entry " << options.corrects << " was corrected before; correct "
                            << recorded.entry.number << " instead, which stands in its place\n";
            return Exit::bad_input;
        default:
            complain(world) << "station " << visit.station << " has no entry " << options.corrects
                            << "; see gallipot log " << for_shell(options.job) << '\n';
            return Exit::bad_input;
    }
    if (options.withdraw)
        world.out << "Took entry " << options.corrects << " out; it stays in the log as entry "
                  << recorded.entry.number << " says.\n";
    else
        world.out << "Recorded as entry " << recorded.entry.number << ": " << log::csv_line(visit);
    return Exit::done;
}

}  // namespace

void add_visit(CLI::App& app, Task& task, World& world) {
    auto* command = app.add_subcommand("visit", "Record one visit to a station");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("STATION", options->station, "Its id, or one container of it: K1 or K1-2")
        ->required();
    command->add_option("--seen", options->seen, "Live pests counted");
    command->add_option("--dead", options->dead, "Dead pests counted");
    command->add_option("--level", options->level,
                        "Bait left: percent, or full, 3/4, 1/2, 1/4, empty");
    command->add_option("--state", options->state, "Any of: " + log::state_words())->delimiter(',');
    command->add_option("--did", options->did, "Any of: " + log::did_words())->delimiter(',');
    command->add_option("--note", options->note, "A note");
    command->add_option("--by", options->by, "Who was there");
    command->add_option("--at", options->at, "When, like '2027-03-18 08:05'; left out: now");
    command->add_option("--corrects", options->corrects, "The number of an entry to correct")
        ->check(CLI::PositiveNumber);
    command->add_flag("--withdraw", options->withdraw, "Take the entry to correct out instead");
    command->callback([&task, &world, options] {
        visit::Visit read = read_options(*options);
        if (!options->at.empty() && !log::parse_time(options->at, log::Zone::of_machine()))
            refuse("--at", options->at, "write it like 2027-03-18 08:05");
        task = [&world, options, read] { return visit(*options, read, world); };
    });
}

}  // namespace gallipot::command
