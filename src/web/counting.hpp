#pragma once

#include "web/parts.hpp"

/// How pests are counted at a station, and the count before anything is set down.
namespace gallipot::web {

/// Nothing stands at the station yet, by the job's day of placing; at a control: nowhere.
bool before_placing(const Context& context, const Place& place);

/// Nothing is set down yet, or should be so: the count that all later ones are compared with.
bool is_time_for_baseline(const Context& context, const Place& place,
                          const StationState& station_state);

/// Whether young ones are counted apart, by the table of pests.
bool tells_young_apart(const Place& place);

/// How to count its pest, a line each, open or folded away; and while nothing is set down yet, that
/// this is the time for the count that all later ones are compared with.
Html how_to_count(const Page& page, const Place& place, const StationState& station_state);

}  // namespace gallipot::web
