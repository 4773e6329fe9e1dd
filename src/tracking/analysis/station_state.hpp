#pragma once

#include <optional>
#include <span>
#include <vector>

#include "tracking/analysis/container_state.hpp"
#include "tracking/analysis/history.hpp"
#include "tracking/analysis/site.hpp"

/// How a station stands after its last visit, and when the next one is due.
namespace gallipot::analysis {

struct StationState {
    std::vector<ContainerState> containers;  ///< in order; a control or a sprayed surface: one
    visit::Marks<visit::State> open;         ///< of any of them
    bool set_out = false;                    ///< at least one of them was, at some time
    bool retired = false;                    ///< all that stood there
    bool place_at_fault = false;  ///< the same trouble again and again since it was last moved
};
StationState station_state_of(const Site& site, std::span<const Observation> history);

/// The visit that should be next.
struct Due {
    Day on{};
    bool overdue = false;  ///< `on` lies before the day asked for
};
/// A visit counts for the planned one it is nearest to in time. After the last planned one a
/// station is due every rules::check_every_days. None when nothing is planned.
std::optional<Due> next_due(const Site& site, std::optional<LocalTime> last_visit, Day as_of);

/// The soonest that bait standing there is to be replaced; none when it keeps.
std::optional<Day> replace_by(const StationState& station_state);

/// The site as the log knows it: where the job does not say when it was set out, the first entry
/// that says so does, and its dates are reckoned from there.
Site as_set_out(Site site, std::span<const Observation> history);

}  // namespace gallipot::analysis
