#include "analysis/verdict.hpp"

#include <algorithm>
#include <array>

#include "analysis/rules.hpp"
#include "analysis/standing.hpp"

namespace gallipot::analysis {

namespace {

using std::chrono::days;
using visit::State;

/// Everything the rules look at.
struct Case {
    const Site& site;
    const Standing& standing;
    const Trend& trend;
    std::optional<Due> due;
    std::optional<Day> replace_by;
    LocalTime start{};         ///< of the baiting: placed, else the first visit
    bool past_window = false;  ///< the last count was made after the usual time
    Day as_of{};
};

Day plus(LocalTime from, double count) {
    return day_of(days_after(from, count));
}

bool has_rebounded(const Trend& t) {
    return t.lowest <= rules::halved * t.first.seen &&
           t.last.seen >= rules::rebound_factor * t.lowest &&
           t.last.seen >= t.lowest + rules::rebound_more;
}

/// No fall worth the name by the time there usually is one.
bool has_stalled(const Case& c) {
    const Trend& t = c.trend;
    return c.past_window && t.counts > 1 && !t.falls && t.last.seen > 0 &&
           t.last.seen > rules::halved * t.first.seen;
}

std::vector<Flag> flags_of(const Case& c, std::size_t visits) {
    std::vector<Flag> flags;
    const auto flag = [&](bool raised, Flag which) {
        if (raised) flags.push_back(which);
    };
    if (c.standing.taken_up) return flags;
    if (!c.site.control) {
        flag(has_rebounded(c.trend), Flag::rebound);
        flag(has_stalled(c), Flag::stalled);
    }
    constexpr std::array found{
        std::pair{State::clogged, Flag::clogged}, std::pair{State::wet, Flag::wet},
        std::pair{State::dry, Flag::dry},         std::pair{State::spilt, Flag::spilt},
        std::pair{State::moved, Flag::moved},     std::pair{State::missing, Flag::missing},
        std::pair{State::mouldy, Flag::mouldy}};
    for (const auto& [state, which] : found) flag(c.standing.open.has(state), which);
    flag((c.due && c.due->overdue) || (c.replace_by && *c.replace_by < c.as_of), Flag::overdue);
    flag(visits == 0 && c.due && c.due->on <= c.as_of, Flag::never_visited);
    return flags;
}

Verdict verdict_of(const Case& c, std::size_t visits) {
    const Trend& t = c.trend;
    if (c.standing.taken_up) return Verdict::taken_up;
    if (visits == 0)
        return c.due && c.due->on <= c.as_of ? Verdict::never_visited : Verdict::not_started;
    if (c.site.control) return Verdict::control;
    if (t.counts == 0) return Verdict::not_counted;
    if (t.counts == 1) return Verdict::counted_once;
    if (t.none_ever()) return Verdict::none_seen;
    if (t.last.seen == 0) return Verdict::gone;
    if (has_rebounded(t)) return Verdict::rebound;
    if (t.rises) return Verdict::rising;
    if (has_stalled(c)) return Verdict::stalled;
    if (t.falls && t.last.seen < t.first.seen) return Verdict::falling;
    return t.last.seen <= rules::halved * t.first.seen ? Verdict::lower : Verdict::no_change;
}

/// What the verdict asks for: how long to go on, or what instead.
Step step_for(const Case& c, Verdict verdict) {
    const Trend& t = c.trend;
    const Day long_enough = plus(c.start, rules::long_enough_days);
    const Day usual = c.site.window ? plus(c.start, c.site.window->high) : long_enough;
    const bool too_long = c.as_of >= long_enough;
    const Step go_on{Action::keep_going, c.as_of < usual ? usual : long_enough};
    switch (verdict) {
        case Verdict::gone: {
            const Day until = plus(*t.none_since, rules::gone_days);
            if (day_of(t.last.time) >= until) return {Action::take_up, c.as_of};
            return {Action::keep_going, std::max(until, c.as_of)};
        }
        case Verdict::none_seen:
            if (c.past_window) return {Action::move_it, c.as_of};
            return {Action::keep_going, std::max(usual, c.as_of)};
        case Verdict::rising:
        case Verdict::stalled:
        case Verdict::rebound:
        case Verdict::no_change:
            if (too_long) return {Action::call_professional, c.as_of};
            if (verdict == Verdict::rebound) return {Action::replace, c.as_of};
            if (c.past_window && verdict != Verdict::no_change)
                return {Action::change_bait, c.as_of};
            return go_on;
        case Verdict::falling:
        case Verdict::lower:
            // Eight weeks and still some left: somebody who knows the species should look.
            return too_long ? Step{Action::call_professional, c.as_of} : go_on;
        default:
            return go_on;
    }
}

bool worth_a_step(Verdict verdict) {
    return verdict >= Verdict::none_seen && verdict <= Verdict::stalled;
}

std::vector<Step> steps_of(const Case& c, Verdict verdict, const Feeding& feeding) {
    std::vector<Step> steps;
    if (c.standing.taken_up || verdict == Verdict::not_started) {
        if (!c.standing.taken_up && c.due) steps.push_back({Action::look, c.due->on});
        return steps;
    }
    const auto step = [&](Action action, Day on) {
        steps.push_back({action, std::max(on, c.as_of)});
    };
    const auto open = [&](State state) { return c.standing.open.has(state); };

    if (open(State::missing)) step(Action::find, c.as_of);
    if (open(State::spilt)) step(Action::wipe_up, c.as_of);
    if (open(State::moved)) step(Action::put_back, c.as_of);
    if (open(State::mouldy) || open(State::wet)) step(Action::replace, c.as_of);
    if (open(State::clogged)) step(Action::clear, c.as_of);
    if (open(State::dry)) step(Action::top_up, c.as_of);
    if (c.standing.place_at_fault) step(Action::move_it, c.as_of);
    if (c.due) step(c.due->overdue ? Action::visit : Action::look, c.due->on);
    if (!c.site.control) {
        if (c.replace_by) step(Action::replace, *c.replace_by);
        if (const Level* level = feeding.first_empty())
            step(Action::top_up, day_of(level->empty->high ? level->empty->low : level->empty->at));
        if (worth_a_step(verdict)) {
            const Step by_verdict = step_for(c, verdict);
            step(by_verdict.action, by_verdict.on);
        }
    }
    std::ranges::sort(steps);
    // The same thing twice (mouldy, and past its date) is done once, on the sooner day.
    std::vector<Step> once;
    for (const Step& each : steps)
        if (std::ranges::none_of(once, [&](const Step& s) { return s.action == each.action; }))
            once.push_back(each);
    return once;
}

}  // namespace

std::string_view word(Flag flag) {
    constexpr std::array<std::string_view, 11> words{
        "rebound", "stalled", "clogged", "wet",     "dry",          "spilt",
        "moved",   "missing", "mouldy",  "overdue", "never visited"};
    return words.at(static_cast<std::size_t>(flag));
}

Caution caution_of(Verdict verdict, const Efficacy& efficacy) {
    if (verdict != Verdict::gone && verdict != Verdict::falling && verdict != Verdict::lower)
        return Caution::none;
    if (efficacy.why_none == NoControl::empty_after) return Caution::control_gone;
    if (efficacy.formula == Formula::none) return Caution::no_control;
    if (efficacy.formula == Formula::henderson_tilton && !efficacy.beyond_control())
        return Caution::like_control;
    return Caution::none;
}

bool StationReport::has(Flag flag) const {
    return std::ranges::find(flags, flag) != flags.end();
}

StationReport report_station(const Site& site, std::span<const Observation> history,
                             Controls& controls, Day as_of) {
    StationReport report;
    report.id = site.id;
    report.control = site.control;
    report.visits = history.size();
    if (!history.empty()) report.last_visit = history.back().time;
    for (const Observation& o : history)
        if (o.dead > 0) report.dead += static_cast<std::size_t>(o.dead);

    report.counts = counts_of(history, site.placed);
    report.trend = trend_of(report.counts);
    const Standing standing = standing_of(site, history);
    report.taken_up = standing.taken_up;
    Case c{site,         standing, report.trend, next_due(site, report.last_visit, as_of),
           std::nullopt, {},       false,        as_of};
    if (!site.control) {
        report.efficacy = controls.against(report.counts.totals, site.placed);
        if (!site.sprayed) {
            report.feeding = feeding_of(history, site.placed, site.containers);
            c.replace_by = replace_by(site, standing);
        }
    }
    c.start = site.placed.value_or(history.empty() ? LocalTime(as_of) : history.front().time);
    const Trend& t = report.trend;
    if (site.window && !site.control) {
        if (site.placed) report.result_by = plus(c.start, site.window->high);
        c.past_window = t.counts > 0 && days_between(c.start, t.last.time) >= site.window->high;
    }
    report.flags = flags_of(c, report.visits);
    report.verdict = verdict_of(c, report.visits);
    report.caution = caution_of(report.verdict, report.efficacy);
    report.early = t.counts > 1 && t.last.seen > t.first.seen && site.placed &&
                   days_between(*site.placed, t.last.time) <= rules::drawn_days;
    report.steps = steps_of(c, report.verdict, report.feeding);
    return report;
}

}  // namespace gallipot::analysis
