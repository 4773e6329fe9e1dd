#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <ostream>

#include "app/session.hpp"
#include "app/visit_log.hpp"
#include "base/diag/utf8.hpp"
#include "cli/command.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "cli/visit_options.hpp"
#include "cli/visit_words.hpp"
#include "tracking/evidence/evidence.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"
#include "tracking/log/log.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::cli {
namespace {

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
    Recorder(const VisitOptions& options, const std::vector<Change>& changes,
             Environment& environment)
        : options_(options), changes_(changes), environment_(environment) {}

    ExitCode run() {
        app::Session session =
            app::open_session(options_.job, app::find_data(), app::SecretPolicy::only_read);
        if (!session.good()) return tell(session, environment_);
        const auto target = log::find_target(session.plan, options_.station);
        if (!target) return unknown_station(session, options_.station, environment_);
        if (!target->called.empty())
            environment_.err << target->called << " is called " << target->station << " now.\n";
        const log::Zone zone = app::zone_of(session);
        const log::Instant clock = app::now();
        std::optional<log::LocalTime> time;
        if (!pick_time(time, session.plan, zone, zone.local(clock))) return ExitCode::bad_input;

        log::Log visits = app::open_log(session, log::Opening::to_write);
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
        const ExitCode exit = tell_recorded(
            visits.record(draft, clock, evidence::facts_of(*session.job, session.plan)));
        if (exit != ExitCode::ok || options_.withdraw) return exit;
        const plan::Station& station = *session.plan.station(target->station);
        warn_if_over(station, draft.visit);
        const auto doubt = log::Period(session.plan, zone.local(clock)).doubt(station, draft.visit);
        if (doubt.kind == log::DateDoubt::none)
            tell_if_baseline(station, draft.visit);
        else if (time)
            warn(environment_) << log::explain(doubt, draft.visit)
                               << "; saved all the same. If it is a slip, correct the entry with "
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
                << " instead, which stands in its place: " << visit_in_words(active.visit) << '\n';
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
                               << " is still to come; saved all the same\n";
        return true;
    }

    void tell_if_baseline(const plan::Station& station, const visit::Visit& visit) {
        if (!old_ && visit.seen && station.placed && visit.time <= *station.placed)
            environment_.out
                << "It is from before " << visit.station
                << " was set out: later counts are compared with the last such count.\n";
    }

    void warn_if_over(const plan::Station& station, const visit::Visit& visit) {
        if (!station.until || std::chrono::floor<std::chrono::days>(visit.time) <=
                                  std::chrono::local_days(*station.until))
            return;
        warn(environment_) << station.id << " was taken up on "
                           << log::print_time(std::chrono::local_days(*station.until)).substr(0, 10)
                           << "; what is logged after that day counts for nothing\n";
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
                               << " says already: " << visit_in_words(visit) << '\n';
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
            environment_.out << "Saved as entry " << entry.number << ": "
                             << visit_in_words(entry.visit) << '\n';
            return ExitCode::ok;
        }
        if (entry.withdrawn)
            environment_.out << "Took entry " << old_->number
                             << " out; it stays in the log as entry " << entry.number
                             << " says.\n  It said: " << visit_in_words(old_->visit) << '\n';
        else
            environment_.out << "Saved as entry " << entry.number << ", in place of entry "
                             << old_->number << ".\n  Before: " << visit_in_words(old_->visit)
                             << "\n  Now:    " << visit_in_words(entry.visit) << '\n';
        return ExitCode::ok;
    }

    const VisitOptions& options_;
    const std::vector<Change>& changes_;
    Environment& environment_;
    std::optional<log::Entry> old_;
};

}  // namespace

void add_visit(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("visit", "Record one visit to a station");
    auto options = std::make_shared<VisitOptions>();
    add_options(*command, *options);
    command->callback([&chosen, &environment, options] {
        const std::vector<Change> changes = read_options(*options);
        chosen = [&environment, options, changes] {
            return Recorder(*options, changes, environment).run();
        };
    });
}

}  // namespace gallipot::cli
