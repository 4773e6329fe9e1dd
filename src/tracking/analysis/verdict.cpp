#include "tracking/analysis/verdict.hpp"

#include <algorithm>
#include <array>

#include "tracking/analysis/rules.hpp"
#include "tracking/analysis/station_state.hpp"
#include "tracking/analysis/wood.hpp"

namespace gallipot::analysis {

namespace {

using std::chrono::days;
using visit::State;

/// Everything the rules look at.
struct Case {
    const Site& site;
    const StationState& station_state;
    const Trend& trend;
    std::optional<Due> due;
    std::optional<Day> replace_by;
    LocalTime start{};         ///< of the baiting: placed, else the first visit
    bool past_window = false;  ///< the last count was made after the usual time
    NoneSeen none_seen;
    bool none_fed = false;    ///< on the bait, as last looked at soon after placing
    bool few_left = false;    ///< after a great fall
    bool bait_failed = true;  ///< nothing says that the numbers fell against the controls'
    Day as_of{};

    /// The pests had no way to the bait, or it was spoilt for them.
    [[nodiscard]] bool could_not_eat() const {
        return station_state.place_at_fault || !station_state.open.empty();
    }
};

bool none_fed(const Site& site, std::span<const Observation> history) {
    if (!site.placed || site.control || site.timber) return false;
    int last = Observation::not_looked;
    for (const Observation& o : history)
        if (o.feeding != Observation::not_looked &&
            days_between(*site.placed, o.time) <= rules::first_fed_days)
            last = o.feeding;
    return last == 0;
}

/// After a fall by so much, by the mean of the last two counts.
bool few_left(const Counts& counts) {
    constexpr std::size_t enough = 3;
    if (counts.totals.size() < enough) return false;
    const Total &last = counts.totals.back(), &before = counts.totals[counts.totals.size() - 2];
    const double mean = (last.seen + before.seen) / 2;
    return mean <= (1 - rules::fallen_far) * counts.totals.front().seen &&
           (last.counted() + before.counted()) / 2 <= rules::few_left;
}

Day plus(LocalTime from, double count) {
    return day_of(days_after(from, count));
}

/// No fall worth the name by the time there usually is one.
bool has_stalled(const Trend& t) {
    return t.stays && t.last.seen > 0;
}

std::vector<Flag> flags_of(const Case& c, std::size_t visits) {
    std::vector<Flag> flags;
    const auto flag = [&](bool raised, Flag which) {
        if (raised) flags.push_back(which);
    };
    if (c.station_state.retired) return flags;
    if (!c.site.control && !c.site.timber) {
        flag(c.trend.rebounds, Flag::rebound);
        flag(has_stalled(c.trend) && !c.trend.rebounds, Flag::stalled);
    }
    constexpr std::array found{
        std::pair{State::clogged, Flag::clogged}, std::pair{State::wet, Flag::wet},
        std::pair{State::dry, Flag::dry},         std::pair{State::spilt, Flag::spilt},
        std::pair{State::moved, Flag::moved},     std::pair{State::missing, Flag::missing},
        std::pair{State::mouldy, Flag::mouldy}};
    for (const auto& [state, which] : found) flag(c.station_state.open.has(state), which);
    flag(c.due && c.due->overdue, Flag::overdue);
    flag(c.replace_by && *c.replace_by < c.as_of, Flag::past_date);
    flag(visits == 0 && c.due && c.due->on <= c.as_of, Flag::never_visited);
    return flags;
}

Verdict verdict_of(const Case& c, const Counts& counts, std::size_t visits) {
    const Trend& t = c.trend;
    if (c.station_state.retired) return Verdict::retired;
    if (visits == 0)
        return c.due && c.due->on <= c.as_of ? Verdict::never_visited : Verdict::not_started;
    if (c.site.control) return Verdict::control;
    if (c.site.timber) return wood_verdict(c.site.placed, counts);
    if (t.counts == 0) return Verdict::not_counted;
    if (counts.all == 1) return Verdict::counted_once;
    if (t.none_ever()) return Verdict::none_seen;
    if (t.none_since) return t.gone ? Verdict::gone : Verdict::none_now;
    if (t.counts == 1) return Verdict::counted_once;
    if (t.rebounds) return Verdict::rebound;
    if (t.rises) return Verdict::rising;
    if (has_stalled(t)) return Verdict::stalled;
    if (t.falls && (t.drawn || t.last.seen < t.first.seen)) return Verdict::falling;
    return t.last.seen <= rules::halved * t.first.seen ? Verdict::lower : Verdict::no_change;
}

/// What the verdict asks for: how long to go on, or what instead.
Step step_for(const Case& c, Verdict verdict) {
    const Trend& t = c.trend;
    const Day long_enough = plus(c.start, rules::long_enough_days);
    const Day usual = c.site.window ? plus(c.start, c.site.window->high) : long_enough;
    const bool too_long = c.as_of >= long_enough;
    const Step call{Action::call_professional, c.as_of, Why::too_long, rules::long_enough_days};
    const Step go_on = c.as_of < usual && usual < long_enough
                           ? Step{Action::keep_going, usual, Why::until_result}
                           : Step{Action::keep_going, long_enough, Why::until_too_long};
    switch (verdict) {
        case Verdict::none_now:
        case Verdict::gone: {
            const Day until = plus(*t.none_since, c.site.gone_days);
            const NoneSeen& none = c.none_seen;
            const int rounds = c.site.empty_traps ? none.trap_rounds : none.rounds;
            const bool enough = rounds >= c.site.empty_counts;
            if (verdict == Verdict::gone && day_of(none.last) >= until && enough)
                return {Action::take_up, c.as_of, Why::gone, c.site.gone_days};
            if (c.site.empty_traps && !enough)
                return {Action::keep_going, std::max(until, c.as_of), Why::until_traps,
                        c.site.empty_counts};
            return {Action::keep_going, std::max(until, c.as_of), Why::until_gone};
        }
        case Verdict::none_seen:
            if (c.past_window) return {Action::move_it, c.as_of, Why::none_came};
            return {Action::keep_going, std::max(usual, c.as_of), Why::until_result};
        case Verdict::rising:
        case Verdict::stalled:
        case Verdict::rebound:
            if (too_long) return call;
            if (verdict == Verdict::rebound) return {Action::replace, c.as_of, Why::came_back};
            // A bait they could not get at has not been tried: that is mended first.
            // Nor is it to blame where the numbers rose much more without it.
            if (!c.past_window || c.could_not_eat() || !c.bait_failed) return go_on;
            return {Action::change_bait, c.as_of,
                    verdict == Verdict::rising ? Why::worse : Why::no_fall};
        default:
            // Eight weeks and still some left: somebody who knows the species should look, but
            // where few are left of many.
            if (too_long && c.few_left)
                return {Action::keep_going, c.as_of + days(rules::check_every_days), Why::few_left};
            return too_long ? call : go_on;
    }
}

/// Of treated wood: new holes are for somebody else to look at; else the planned looks go on.
void step_for_wood(const Case& c, Verdict verdict, std::vector<Step>& steps) {
    if (verdict == Verdict::wood_active)
        steps.push_back({Action::call_professional, c.as_of, Why::in_wood});
}

bool worth_a_step(Verdict verdict) {
    return verdict >= Verdict::none_seen && verdict <= Verdict::stalled;
}

/// What was found at a container and is not put right yet. Of one that is missing nothing else can
/// be done.
void mend_container(const Case& c, const ContainerState& container, std::vector<Step>& steps) {
    const auto open = [&](State state) { return container.open.has(state); };
    const auto step = [&](bool wanted, Action action, Why why = Why::none) {
        if (wanted) steps.push_back({action, c.as_of, why, 0, container.number});
    };
    if (container.taken_up) return;
    step(open(State::missing), Action::find);
    if (open(State::missing)) return;
    step(open(State::spilt), Action::wipe_up);
    step(open(State::moved), Action::put_back);
    step(!container.set_out && c.site.baited(), Action::set_out);
    step(open(State::mouldy) || open(State::wet), Action::replace, Why::spoilt);
    step(container.standing() && container.holds.other_mix, Action::replace);
    step(open(State::clogged), Action::clear);
    step(open(State::dry), Action::top_up, Why::dry);
}

/// The place that brings trouble about again and again, or where none of them feeds.
void mend_place(const Case& c, std::vector<Step>& steps) {
    if (c.station_state.place_at_fault)
        steps.push_back({Action::move_it, c.as_of, Why::place_at_fault});
    const bool some_about = c.trend.counts == 0 || c.trend.last.seen > 0;
    const bool soon = days_between(c.start, LocalTime(c.as_of)) <= rules::first_fed_days;
    if (c.none_fed && some_about && soon)
        steps.push_back({Action::move_it, c.as_of, Why::none_fed});
}

/// What the bait in one container asks for as time goes on: `until` is when the station's verdict
/// puts an end to what stands there, where it does.
void renew(const Case& c, const ContainerState& container, const Feeding& feeding,
           std::optional<Day> until, std::vector<Step>& steps) {
    if (!container.standing()) return;
    const auto step = [&](Action action, Day on, Why why) {
        steps.push_back({action, std::max(on, c.as_of), why, 0, container.number});
    };
    std::optional<Day> over = container.replace_by;
    if (over) step(Action::replace, *over, Why::past_its_time);
    if (until) over = std::min(over.value_or(*until), *until);
    const Level* level = feeding.of(container.number);
    if (level == nullptr || !level->empty) return;
    const Day by = day_of(level->empty->high ? level->empty->low : level->empty->at);
    if (!over || by < *over) step(Action::top_up, by, Why::runs_empty);
}

/// What is to be done at every container alike is said once, of the station.
std::vector<Step> joined(const std::vector<Step>& steps,
                         const std::vector<ContainerState>& containers) {
    const auto there = std::ranges::count(containers, false, &ContainerState::taken_up);
    std::vector<Step> result;
    for (Step step : steps) {
        const auto same = [&](const Step& other) {
            return other.action == step.action && other.on == step.on && other.why == step.why;
        };
        if (step.container != 0 && std::ranges::count_if(steps, same) == there) step.container = 0;
        if (std::ranges::find(result, step) == result.end()) result.push_back(step);
    }
    return result;
}

/// The same thing twice (mouldy, and past its date) is done once, on the sooner day; and a
/// container that is filled afresh needs no topping up before it is looked at again.
std::vector<Step> once(std::vector<Step> steps) {
    std::ranges::stable_sort(steps);
    std::vector<Step> result;
    for (const Step& each : steps) {
        const bool done = std::ranges::any_of(result, [&](const Step& earlier) {
            const bool there = earlier.container == each.container || earlier.container == 0;
            return there && (earlier.action == each.action ||
                             (earlier.action == Action::replace && each.action == Action::top_up));
        });
        if (!done) result.push_back(each);
    }
    return result;
}

std::vector<Step> steps_of(const Case& c, Verdict verdict, const Feeding& feeding) {
    std::vector<Step> steps;
    if (c.station_state.retired) return steps;
    if (verdict == Verdict::not_started && c.station_state.set_out) {
        if (c.due) steps.push_back({Action::look, c.due->on});
        return steps;
    }
    std::vector<Step> of_containers;
    for (const ContainerState& container : c.station_state.containers)
        mend_container(c, container, of_containers);
    mend_place(c, steps);
    if (c.due)
        steps.push_back(c.due->overdue ? Step{Action::visit, c.as_of}
                                       : Step{Action::look, std::max(c.due->on, c.as_of)});
    if (c.site.timber) {
        step_for_wood(c, verdict, steps);
    } else if (!c.site.control) {
        // What ends the filling that stands there: fresh bait, or nothing at all.
        std::optional<Day> until;
        if (worth_a_step(verdict)) {
            const Step by_verdict = step_for(c, verdict);
            steps.push_back(by_verdict);
            const bool ends =
                by_verdict.action == Action::take_up || by_verdict.action == Action::change_bait ||
                by_verdict.action == Action::replace || by_verdict.why == Why::until_gone ||
                by_verdict.why == Why::until_traps;
            if (ends) until = by_verdict.on;
        }
        // What is taken up needs no better place.
        if (std::ranges::find(steps, Action::take_up, &Step::action) != steps.end())
            std::erase_if(steps, [](const Step& s) { return s.action == Action::move_it; });
        const bool no_more = std::ranges::any_of(steps, [](const Step& s) {
            return s.action == Action::take_up || s.action == Action::change_bait;
        });
        if (!c.site.sprayed)
            for (const ContainerState& container : c.station_state.containers)
                renew(c, container, feeding, until, of_containers);
        if (no_more)
            std::erase_if(of_containers, [](const Step& s) { return s.why == Why::past_its_time; });
    }
    of_containers = joined(once(std::move(of_containers)), c.station_state.containers);
    steps.insert(steps.end(), of_containers.begin(), of_containers.end());
    return once(std::move(steps));
}

}  // namespace

std::string_view word(Flag flag) {
    constexpr std::array<std::string_view, 12> words{
        "rebound", "stalled", "clogged", "wet",     "dry",           "spilt",
        "moved",   "missing", "mouldy",  "overdue", "past its date", "never visited"};
    return words.at(static_cast<std::size_t>(flag));
}

Caution caution_of(Verdict verdict, const Efficacy& efficacy) {
    if (verdict != Verdict::gone && verdict != Verdict::none_now && verdict != Verdict::falling &&
        verdict != Verdict::lower)
        return Caution::none;
    switch (efficacy.why_none) {
        case NoControl::none:
        case NoControl::treated_empty:
            break;
        case NoControl::not_there:
            return Caution::no_control;
        case NoControl::not_counted:
        case NoControl::too_few:
            return Caution::not_together;
        case NoControl::empty_before:
            return Caution::none_at_control;
        case NoControl::empty_after:
            return Caution::control_gone;
    }
    if (efficacy.formula != Formula::henderson_tilton) return Caution::none;
    if (efficacy.beyond_control)
        return efficacy.controls == 1 ? Caution::one_control : Caution::none;
    return efficacy.plain() && !efficacy.chance ? Caution::two_places : Caution::like_control;
}

bool StationReport::has(Flag flag) const {
    return std::ranges::find(flags, flag) != flags.end();
}

std::string StationReport::container_id(int number) const {
    return number == 0 || containers.size() < 2 ? id : id + '-' + std::to_string(number);
}

LocalTime start_of(const Site& site, std::span<const Observation> history, Day as_of) {
    return site.placed.value_or(history.empty() ? LocalTime(as_of) : history.front().time);
}

StationReport report_station(const Site& site, std::span<const Observation> history,
                             StationCounts counted, Day as_of) {
    StationReport report;
    report.id = site.id;
    report.control = site.control;
    report.pest = site.pest;
    report.timber = site.timber;
    if (!site.control && !site.timber) report.gone_days = site.gone_days;
    report.visits = history.size();
    if (!history.empty()) report.last_visit = history.back().time;
    for (const Observation& o : history)
        if (o.dead > 0) report.dead += static_cast<std::size_t>(o.dead);

    report.counts = std::move(counted.counts);
    report.trend = std::move(counted.trend);
    report.efficacy = std::move(counted.efficacy);
    StationState station_state = station_state_of(site, history);
    if (site.over(as_of)) station_state.retired = true;
    report.retired = station_state.retired;
    if (site.baited()) report.containers = station_state.containers;
    const bool begun = !site.baited() || station_state.set_out;
    if (!report.retired && begun) report.due = next_due(site, report.last_visit, as_of);
    if (site.over(as_of))
        for (ContainerState& container : report.containers) {
            container.taken_up = true;
            container.level_percent.reset();
            container.replace_by.reset();
        }
    if (site.baited() && !report.retired) report.replace_by = replace_by(station_state);
    Case c{site,
           station_state,
           report.trend,
           report.due,
           report.replace_by,
           {},
           false,
           report.counts.none_seen,
           none_fed(site, history),
           few_left(report.counts),
           !report.efficacy.held_down(),
           as_of};
    if (!site.control && !site.sprayed) report.feeding = feeding_of(site, history);
    c.start = start_of(site, history, as_of);
    const Trend& t = report.trend;
    if (site.window && !site.control) {
        if (site.placed) report.result_by = plus(c.start, site.window->high);
        c.past_window = t.counts > 0 && days_between(c.start, t.last.time) >= site.window->high;
    }
    report.flags = flags_of(c, report.visits);
    report.verdict = verdict_of(c, report.counts, report.visits);
    report.caution = caution_of(report.verdict, report.efficacy);
    report.early = t.counts > 1 && t.last.seen > t.first.seen && site.placed &&
                   days_between(*site.placed, t.last.time) <= rules::drawn_days;
    report.steps = steps_of(c, report.verdict, report.feeding);
    return report;
}

}  // namespace gallipot::analysis
