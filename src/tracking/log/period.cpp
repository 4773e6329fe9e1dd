#include "tracking/log/period.hpp"

#include <algorithm>

namespace gallipot::log {
namespace ch = std::chrono;

namespace {

constexpr ch::days a_year{366};
/// Longer than a job is looked after: a clock beyond is wrong.
constexpr ch::days long_after = 20 * a_year;

}  // namespace

Period::Period(const plan::Plan& plan, LocalTime clock) : clock_(clock) {
    std::optional<LocalTime> first_placed;
    std::optional<LocalTime> last_placed;
    for (const plan::Station& station : plan.stations) {
        if (!station.placed) continue;
        first_placed = std::min(first_placed.value_or(*station.placed), *station.placed);
        last_placed = std::max(last_placed.value_or(*station.placed), *station.placed);
    }
    const LocalTime millennium = ch::local_days(ch::year(2000) / ch::January / 1);
    first_ = first_placed ? *first_placed - a_year : millennium;
    const LocalTime end = last_placed ? *last_placed + long_after : millennium + 5 * long_after;
    clock_can_be_ = clock_ >= first_ && clock_ <= end;
    if (!clock_can_be_)
        last_ = end;
    else
        last_ = std::max(last_placed.value_or(clock_), clock_) + a_year;
}

TimeFault Period::fault(LocalTime time) const {
    if (time < first_) return TimeFault::too_early;
    return time > last_ ? TimeFault::too_late : TimeFault::none;
}

bool Period::is_to_come(LocalTime time) const {
    return clock_can_be_ && time > clock_ + ch::minutes(5);
}

}  // namespace gallipot::log
