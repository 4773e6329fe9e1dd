#include "tracking/analysis/station_state.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

using visit::Did;
using visit::State;

/// Troubles that another place would cure. Bait that is eaten up, or taken, is not one.
constexpr std::array of_the_place{State::clogged, State::wet, State::spilt, State::moved,
                                  State::mouldy};

}  // namespace

StationState station_state_of(const Site& site, std::span<const Observation> history) {
    StationState station_state;
    station_state.containers = containers_of(site, history);
    for (const ContainerState& container : station_state.containers) {
        for (const State state : visit::all_states())
            if (container.open.has(state)) station_state.open.add(state);
        station_state.set_out = station_state.set_out || container.set_out;
    }
    station_state.retired =
        std::ranges::all_of(station_state.containers, &ContainerState::taken_up);
    std::map<State, int> troubles;
    for (const Observation& o : history) {
        if (o.did.has(Did::moved)) troubles.clear();
        for (const State state : of_the_place)
            if (o.state.has(state)) ++troubles[state];
    }
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

std::optional<Day> replace_by(const StationState& station_state) {
    std::optional<Day> soonest;
    for (const ContainerState& container : station_state.containers)
        if (container.replace_by)
            soonest = std::min(soonest.value_or(*container.replace_by), *container.replace_by);
    return soonest;
}

Site as_set_out(Site site, std::span<const Observation> history) {
    if (site.placed || !site.baited()) return site;
    const auto first =
        std::ranges::find_if(history, [](const Observation& o) { return o.did.has(Did::placed); });
    if (first == history.end()) return site;
    site.placed = first->time;
    for (LocalTime& due : site.due) due += first->time - site.due_from;
    site.due_from = first->time;
    site.replace_by.reset();
    if (site.lasts) site.replace_by = day_of(first->time) + *site.lasts;
    return site;
}

}  // namespace gallipot::analysis
