#pragma once

#include <cstddef>
#include <vector>

#include "domain/plan/plan.hpp"

namespace gallipot::plan {

/// A station to be visited.
struct Due {
    std::size_t station = 0;  ///< index into the plan's stations
    LocalTime time{};
};

/// All that is due on one day, in walking order; a station due twice on it stands there twice.
struct DueDay {
    Date day;
    std::vector<Due> visits;
};

/// The day after so much time, part of a day not counted.
Date later(Date date, units::Duration time);

/// Every planned visit of every station, by day.
std::vector<DueDay> due_days(const Plan& plan);

}  // namespace gallipot::plan
