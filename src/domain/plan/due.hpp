#pragma once

#include <cstddef>

#include "domain/plan/plan.hpp"

namespace gallipot::plan {

/// A station to be visited.
struct Due {
    std::size_t station = 0;  ///< index into the plan's stations
    LocalTime time{};
    bool operator==(const Due&) const = default;
};

/// The day after so much time, part of a day not counted.
Date later(Date date, units::Duration time);

}  // namespace gallipot::plan
