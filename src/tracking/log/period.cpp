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
    std::optional<LocalTime> last_placed;
    for (std::size_t i = 0; i < plan.all_stations(); ++i) {
        const plan::Station& station = plan.station_at(i);
        if (!station.placed) continue;
        first_placed_ = std::min(first_placed_.value_or(*station.placed), *station.placed);
        last_placed = std::max(last_placed.value_or(*station.placed), *station.placed);
    }
    const LocalTime millennium = ch::local_days(ch::year(2000) / ch::January / 1);
    first_ = first_placed_ ? *first_placed_ - a_year : millennium;
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

Period::Doubt Period::doubt(const plan::Station& station, const visit::Visit& visit) const {
    const auto placed = station.placed ? station.placed : first_placed_;
    if (!placed) return {};
    if (visit.time < *placed - baseline_days)
        return {DateDoubt::long_before, *placed, station.placed.has_value()};
    const bool of_bait =
        visit.level_percent || visit.feeding || !visit.state.empty() || !visit.did.empty();
    if (of_bait && station.placed && ch::floor<ch::days>(visit.time) < ch::floor<ch::days>(*placed))
        return {DateDoubt::bait_before, *placed, true};
    return {};
}

bool Period::is_to_come(LocalTime time) const {
    return clock_can_be_ && time > clock_ + ch::minutes(5);
}

std::string explain(const Period::Doubt& doubt, const visit::Visit& visit) {
    const auto day = ch::floor<ch::days>(doubt.placed);
    const auto before = (day - ch::floor<ch::days>(visit.time)).count();
    const std::string date = print_time(day).substr(0, 10);
    std::string text = print_time(visit.time) + " is " + std::to_string(before) +
                       (before == 1 ? " day" : " days") + " before " +
                       (doubt.own ? visit.station : "the first station") + " was set out, on " +
                       date;
    if (doubt.kind == DateDoubt::bait_before) text += ", and tells of bait there";
    return text;
}

}  // namespace gallipot::log
