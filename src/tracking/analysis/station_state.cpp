#include "tracking/analysis/station_state.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

using visit::Did;
using visit::State;

/// Whether what was done on the same visit put it right.
bool put_right(State state, visit::Marks<Did> did) {
    const bool fresh = did.has(Did::replaced);
    const bool filled = fresh || did.has(Did::refilled);
    switch (state) {
        case State::clogged:
            return fresh || did.has(Did::cleared);
        case State::dry:
            return filled;
        case State::spilt:
            return filled || did.has(Did::cleared);
        case State::moved:
            return fresh || did.has(Did::moved);
        case State::wet:
        case State::missing:
        case State::mouldy:
            return fresh;
    }
    return false;
}

visit::Marks<State> left_open(const Site& site, const Observation& o) {
    visit::Marks<State> open;
    for (const State state : visit::all_states()) {
        // A dry bait that was found dry is as it should be; that nothing is left its level says.
        if (site.powder && state == State::dry) continue;
        if (o.state.has(state) && !put_right(state, o.did)) open.add(state);
    }
    if (o.level_percent == 0 && !put_right(State::dry, o.did)) open.add(State::dry);
    return open;
}

/// Troubles that another place would cure. Bait that is eaten up, or taken, is not one.
constexpr std::array of_the_place{State::clogged, State::wet, State::spilt, State::moved,
                                  State::mouldy};

}  // namespace

StationState station_state_of(const Site& site, std::span<const Observation> history) {
    StationState station_state;
    std::map<int, visit::Marks<State>> open;  // by container; 0: the station as a whole
    std::set<int> removed;
    std::map<State, int> troubles;
    for (const Observation& o : history) {
        if (o.container == 0) open.clear();
        open[o.container] = left_open(site, o);
        if (o.did.has(Did::moved)) troubles.clear();
        for (const State state : of_the_place)
            if (o.state.has(state)) ++troubles[state];

        if (o.did.has(Did::replaced) || o.did.has(Did::refilled)) {
            if (o.container == 0) removed.clear();
            removed.erase(o.container);
            removed.erase(0);
        }
        if (o.did.has(Did::removed)) removed.insert(o.container);
        if (o.did.has(Did::replaced)) station_state.replaced = day_of(o.time);
    }
    for (const auto& [container, states] : open)
        for (const State state : visit::all_states())
            if (states.has(state)) station_state.open.add(state);
    station_state.retired =
        removed.contains(0) || (site.containers > 0 && std::ssize(removed) >= site.containers);
    station_state.place_at_fault = std::ranges::any_of(
        troubles, [](const auto& trouble) { return trouble.second >= rules::repeats; });
    return station_state;
}

std::optional<Due> next_due(const Site& site, std::optional<LocalTime> last_visit, Day as_of) {
    std::optional<LocalTime> before = site.placed;
    for (const LocalTime due : site.due) {
        // From half way between the planned visits on, a visit is this one, made early.
        const LocalTime from = before ? *before + (due - *before) / 2 : due;
        before = due;
        const bool made = last_visit && *last_visit >= from;
        if (!made) return Due{day_of(due), day_of(due) < as_of};
    }
    if (!last_visit || site.due.empty()) return std::nullopt;
    const int every = site.timber ? rules::flying_season_days : rules::check_every_days;
    const Day next = day_of(std::max(*last_visit, site.due.back())) + std::chrono::days(every);
    return Due{next, next < as_of};
}

std::optional<Day> replace_by(const Site& site, const StationState& station_state) {
    if (station_state.replaced)
        return site.lasts ? std::optional(*station_state.replaced + *site.lasts) : std::nullopt;
    return site.replace_by;
}

}  // namespace gallipot::analysis
