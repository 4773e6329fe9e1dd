#pragma once

#include <optional>
#include <span>

#include "tracking/analysis/history.hpp"
#include "tracking/analysis/site.hpp"

/// How a station stands after its last visit, and when the next one is due.
namespace gallipot::analysis {

struct StationState {
    visit::Marks<visit::State> open;  ///< found last time and not put right
    bool retired = false;             ///< all that stood there
    bool place_at_fault = false;      ///< the same trouble again and again since it was last moved
    std::optional<Day> replaced;      ///< last filled with fresh bait
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

/// When the bait that stands there now is to be replaced; none when it keeps.
std::optional<Day> replace_by(const Site& site, const StationState& station_state);

}  // namespace gallipot::analysis
