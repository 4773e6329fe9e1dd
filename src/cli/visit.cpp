#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>
#include <functional>
#include <memory>
#include <ostream>

#include "app/session.hpp"
#include "base/diag/utf8.hpp"
#include "cli/command.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "cli/visit_log.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::cli {
namespace {

struct Options {
    std::string job;
    std::string station;
    std::string seen, dead, level, note, by, at, minutes, young, trap_nights, feeding;
    std::vector<std::string> state, did, clear;
    std::int64_t corrects = 0;
    bool withdraw = false;
};

/// What one option says of a visit: of a new one, or of the entry that is corrected.
using Change = std::function<void(visit::Visit&)>;

struct Field {
    const char* name;
    Change clear;
};

const std::vector<Field>& clearable() {
    static const std::vector<Field> fields{
        {"container", [](visit::Visit& visit) { visit.container = 0; }},
        {"by", [](visit::Visit& visit) { visit.by.clear(); }},
        {"seen", [](visit::Visit& visit) { visit.seen.reset(); }},
        {"dead", [](visit::Visit& visit) { visit.dead.reset(); }},
        {"level", [](visit::Visit& visit) { visit.level_percent.reset(); }},
        {"state", [](visit::Visit& visit) { visit.state = {}; }},
        {"did", [](visit::Visit& visit) { visit.did = {}; }},
        {"note", [](visit::Visit& visit) { visit.note.clear(); }},
        {"minutes", [](visit::Visit& visit) { visit.minutes.reset(); }},
        {"young", [](visit::Visit& visit) { visit.young.reset(); }},
        {"trap_nights", [](visit::Visit& visit) { visit.trap_nights.reset(); }},
        {"feeding", [](visit::Visit& visit) { visit.feeding.reset(); }}};
    return fields;
}

[[noreturn]] void refuse(const std::string& option, const std::string& value,
                         const std::string& instead) {
    throw CLI::ValidationError(option, "'" + value + "' will not do; " + instead);
}

int read_count(const std::string& option, const std::string& text, int minimum = 0) {
    const auto count = log::parse_count(text);
    if (!count || *count < minimum)
        refuse(option, text,
               fmt::format("give a whole number, {} to {}", minimum, log::maximum_counted));
    return *count;
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

/// Reads the options one by one, those left out aside.
class OptionReader {
  public:
    explicit OptionReader(const Options& options) : options_(options) {}

    std::vector<Change> read() {
        clear();
        count("seen", options_.seen, &visit::Visit::seen, 0);
        count("dead", options_.dead, &visit::Visit::dead, 0);
        if (given("level", options_.level)) {
            const auto level = log::parse_level(options_.level);
            if (!level)
                refuse("--level", options_.level, "give percent, or full, 3/4, 1/2, 1/4 or empty");
            changes_.emplace_back([level](visit::Visit& visit) { visit.level_percent = level; });
        }
        marks();
        if (given("note", options_.note)) {
            const std::string note = read_text("--note", options_.note, log::longest_note, true);
            changes_.emplace_back([note](visit::Visit& visit) { visit.note = note; });
        }
        if (given("by", options_.by)) {
            const std::string by = read_text("--by", options_.by, log::longest_name, false);
            changes_.emplace_back([by](visit::Visit& visit) { visit.by = by; });
        }
        count("minutes", options_.minutes, &visit::Visit::minutes, 1);
        count("young", options_.young, &visit::Visit::young, 0);
        count("trap_nights", options_.trap_nights, &visit::Visit::trap_nights, 1);
        if (given("feeding", options_.feeding)) {
            const auto feeding = log::parse_yes_no(options_.feeding);
            if (!feeding) refuse("--feeding", options_.feeding, "give yes or no");
            changes_.emplace_back([feeding](visit::Visit& visit) { visit.feeding = feeding; });
        }
        return changes_;
    }

  private:
    void clear() {
        if (!options_.clear.empty() && options_.corrects == 0)
            throw CLI::ValidationError("--clear", "say of which entry, with --corrects NUMBER");
        for (const std::string& name : options_.clear) {
            const auto& fields = clearable();
            const auto field = std::find_if(fields.begin(), fields.end(),
                                            [&](const Field& known) { return name == known.name; });
            if (field == fields.end())
                refuse("--clear", name, "give any of: " + clearable_fields());
            changes_.push_back(field->clear);
        }
    }
    bool given(const std::string& name, const std::string& text) {
        if (text.empty()) return false;
        if (std::find(options_.clear.begin(), options_.clear.end(), name) != options_.clear.end())
            refuse("--clear", name, "it is also given anew");
        return true;
    }
    void count(const std::string& name, const std::string& text,
               std::optional<int> visit::Visit::*field, int minimum) {
        if (!given(name, text)) return;
        std::string option = "--" + name;
        std::replace(option.begin(), option.end(), '_', '-');
        const int value = read_count(option, text, minimum);
        changes_.emplace_back([field, value](visit::Visit& visit) { visit.*field = value; });
    }
    void marks() {
        std::string stranger;
        if (given("state", joined(options_.state))) {
            const auto states = log::parse_states(joined(options_.state), stranger);
            if (!states) refuse("--state", stranger, "give any of: " + log::state_words());
            changes_.emplace_back([states](visit::Visit& visit) { visit.state = *states; });
        }
        if (given("did", joined(options_.did))) {
            const auto dids = log::parse_dids(joined(options_.did), stranger);
            if (!dids) refuse("--did", stranger, "give any of: " + log::did_words());
            changes_.emplace_back([dids](visit::Visit& visit) { visit.did = *dids; });
        }
    }

    const Options& options_;
    std::vector<Change> changes_;
};

void apply_all(const std::vector<Change>& changes, visit::Visit& visit) {
    for (const Change& change : changes) change(visit);
}

/// What the options say, before the job and its log are looked at.
std::vector<Change> read_options(const Options& options) {
    std::vector<Change> changes = OptionReader(options).read();
    if (options.withdraw && options.corrects == 0)
        throw CLI::ValidationError("--withdraw", "say which entry, with --corrects NUMBER");
    if (options.corrects != 0) return changes;
    visit::Visit visit;
    apply_all(changes, visit);
    if (!log::says_something(visit))
        throw CLI::ValidationError("visit",
                                   "it says nothing; give --seen, --dead, --level, "
                                   "--state, --did, --young, --feeding or --note");
    return changes;
}

ExitCode unknown_station(const app::Session& session, const std::string& written,
                         Environment& environment) {
    std::vector<std::string> ids;
    for (const auto& station : session.plan.stations) ids.push_back(station.id);
    const std::string near = diag::nearest(written, ids);
    complain(environment) << "the job has no station " << diag::quoted(written) << "; "
                          << (near.empty() ? "see gallipot plan for those it has"
                                           : "did you mean '" + near + "'?")
                          << '\n';
    return ExitCode::bad_input;
}

/// One visit on its way into the log.
class Recorder {
  public:
    Recorder(const Options& options, const std::vector<Change>& changes, Environment& environment)
        : options_(options), changes_(changes), environment_(environment) {}

    ExitCode run() {
        app::Session session =
            app::open_session(options_.job, app::find_data(), app::SecretPolicy::only_read);
        if (!session.good()) return tell(session, environment_);
        const auto target = log::find_target(session.plan, options_.station);
        if (!target) return unknown_station(session, options_.station, environment_);
        const log::Zone zone = app::zone_of(session);
        const log::Instant clock = app::now();
        std::optional<log::LocalTime> time;
        if (!pick_time(time, session.plan, zone, zone.local(clock))) return ExitCode::bad_input;

        log::Log visits = app::open_log(session.file, log::Opening::to_write);
        log::Draft draft;
        if (options_.corrects != 0) {
            if (!find_old(visits, *target)) return ExitCode::bad_input;
            draft.visit = old_->visit;
            draft.corrects = options_.corrects;
            draft.withdrawn = options_.withdraw;
        }
        draft.visit.station = target->station;
        if (target->container != 0) draft.visit.container = target->container;
        apply_all(changes_, draft.visit);
        if (time) draft.visit.time = *time;
        if (old_ && !options_.withdraw && !is_correction(draft.visit)) return ExitCode::bad_input;
        const ExitCode exit = tell_recorded(visits.record(draft, clock));
        if (exit != ExitCode::ok || options_.withdraw) return exit;
        const plan::Station& station = *session.plan.station(target->station);
        const auto doubt = log::Period(session.plan, zone.local(clock)).doubt(station, draft.visit);
        if (doubt.kind == log::DateDoubt::none)
            tell_if_baseline(station, draft.visit);
        else if (time)
            warn(environment_)
                << log::explain(doubt, draft.visit)
                << "; recorded all the same. If it is a slip, correct the entry with "
                   "--corrects and --at\n";
        return exit;
    }

  private:
    /// The entry to correct; false, and said why, when there is none that could be.
    bool find_old(const log::Log& visits, const log::Target& target) {
        old_ = visits.find(options_.corrects);
        if (!old_ || old_->visit.station != target.station) {
            complain(environment_)
                << "station " << target.station << " has no entry " << options_.corrects
                << "; see gallipot log " << options_.job << '\n';
            return false;
        }
        const log::Entry active = *visits.active(options_.corrects);
        if (active.number == old_->number && !old_->withdrawn) return true;
        tell_corrected_since(active);
        return false;
    }

    void tell_corrected_since(const log::Entry& active) {
        if (active.withdrawn)
            complain(environment_) << "entry " << options_.corrects << " was taken out by entry "
                                   << active.number << "; record the visit anew\n";
        else
            complain(environment_)
                << "entry " << options_.corrects << " was corrected before; correct "
                << active.number
                << " instead, which stands in its place: " << log::csv_line(active.visit);
    }

    /// The time given, else now; none for a correction that leaves it as it was.
    bool pick_time(std::optional<log::LocalTime>& time, const plan::Plan& plan,
                   const log::Zone& zone, log::LocalTime clock) {
        const log::Period period(plan, clock);
        if (options_.at.empty()) {
            if (options_.corrects != 0) return true;
            time = clock;
            if (period.clock_can_be()) return true;
            complain(environment_) << "this machine's clock says " << log::print_time(clock)
                                   << ", which cannot be; set it, or give the time with --at\n";
            return false;
        }
        time = *log::parse_time(options_.at, zone);
        switch (period.fault(*time)) {
            case log::TimeFault::none:
                break;
            case log::TimeFault::too_early:
                complain(environment_)
                    << "--at: " << log::print_time(*time)
                    << " is more than a year before the first station was set out; "
                       "mend the date\n";
                return false;
            case log::TimeFault::too_late:
                complain(environment_) << "--at: " << log::print_time(*time)
                                       << " is more than a year ahead; mend the date\n";
                return false;
        }
        if (period.is_to_come(*time))
            warn(environment_) << log::print_time(*time)
                               << " is still to come; recorded all the same\n";
        return true;
    }

    void tell_if_baseline(const plan::Station& station, const visit::Visit& visit) {
        if (!old_ && visit.seen && station.placed && visit.time <= *station.placed)
            environment_.out
                << "It is from before " << visit.station
                << " was set out: later counts are compared with the last such count.\n";
    }

    /// Whether something is left, and is another than before.
    bool is_correction(const visit::Visit& visit) {
        if (!log::says_something(visit)) {
            complain(environment_) << "nothing would be left of entry " << old_->number
                                   << "; take it out with --withdraw\n";
            return false;
        }
        if (visit != old_->visit) return true;
        complain(environment_) << "that is what entry " << old_->number
                               << " says already: " << log::csv_line(visit);
        return false;
    }

    ExitCode tell_recorded(const log::Recorded& recorded) {
        const log::Entry& entry = recorded.entry;
        switch (recorded.outcome) {
            case log::Outcome::recorded:
                break;
            case log::Outcome::corrected_since:
                tell_corrected_since(entry);
                return ExitCode::bad_input;
            default:
                complain(environment_)
                    << "entry " << options_.corrects << " is not there any more\n";
                return ExitCode::bad_input;
        }
        if (!old_) {
            environment_.out << "Recorded as entry " << entry.number << ": "
                             << log::csv_line(entry.visit);
            return ExitCode::ok;
        }
        if (entry.withdrawn)
            environment_.out << "Took entry " << old_->number
                             << " out; it stays in the log as entry " << entry.number
                             << " says.\n  It said: " << log::csv_line(old_->visit);
        else
            environment_.out << "Recorded as entry " << entry.number << ", in place of entry "
                             << old_->number << ".\n  Before: " << log::csv_line(old_->visit)
                             << "  Now:    " << log::csv_line(entry.visit);
        return ExitCode::ok;
    }

    const Options& options_;
    const std::vector<Change>& changes_;
    Environment& environment_;
    std::optional<log::Entry> old_;
};

}  // namespace

std::string clearable_fields() {
    std::string names;
    for (const Field& field : clearable())
        names += (names.empty() ? "" : ", ") + std::string(field.name);
    return names;
}

void add_visit(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("visit", "Record one visit to a station");
    auto options = std::make_shared<Options>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("STATION", options->station, "Its id, or one container of it: K1 or K1-2")
        ->required();
    command->add_option("--seen", options->seen,
                        "Live pests counted; the first time before anything is set down");
    command->add_option("--dead", options->dead, "Dead pests counted");
    command->add_option("--level", options->level,
                        "Bait left: percent, or full, 3/4, 1/2, 1/4, empty");
    command->add_option("--state", options->state, "Any of: " + log::state_words())->delimiter(',');
    command->add_option("--did", options->did, "Any of: " + log::did_words())->delimiter(',');
    command->add_option("--note", options->note, "A note");
    command->add_option("--by", options->by, "Who was there");
    command->add_option("--minutes", options->minutes,
                        "How many minutes the count took; counts are compared by the minute");
    command->add_option("--young", options->young, "How many of those seen were young");
    command->add_option("--trap-nights", options->trap_nights,
                        "Traps times the nights they were out; counts are compared by it");
    command->add_option("--feeding", options->feeding, "Whether any fed on the bait: yes or no");
    command->add_option("--at", options->at, "When, like '2027-03-18 08:05'; left out: now");
    command
        ->add_option("--corrects", options->corrects,
                     "The number of an entry to correct; what is not given anew stays as it was")
        ->check(CLI::PositiveNumber);
    command
        ->add_option("--clear", options->clear,
                     "Of the entry to correct, empty any of: " + clearable_fields())
        ->delimiter(',');
    command->add_flag("--withdraw", options->withdraw, "Take the entry to correct out instead");
    command->callback([&chosen, &environment, options] {
        const std::vector<Change> changes = read_options(*options);
        if (!options->at.empty() && !log::parse_time(options->at, log::Zone::of_machine()))
            refuse("--at", options->at, "write it like 2027-03-18 08:05");
        chosen = [&environment, options, changes] {
            return Recorder(*options, changes, environment).run();
        };
    });
}

}  // namespace gallipot::cli
