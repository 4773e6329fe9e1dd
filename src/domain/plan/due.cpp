#include "domain/plan/due.hpp"

#include <cmath>

namespace gallipot::plan {

Date later(Date date, units::Duration time) {
    const auto days = static_cast<int>(std::floor(units::in_days(time) + 1e-9));
    return Date(std::chrono::sys_days(date) + std::chrono::days(days));
}

}  // namespace gallipot::plan
