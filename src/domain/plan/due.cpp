#include "domain/plan/due.hpp"

#include <cmath>
#include <map>

namespace gallipot::plan {

Date later(Date date, units::Duration time) {
    const auto days = static_cast<int>(std::floor(units::in_days(time) + 1e-9));
    return Date(std::chrono::sys_days(date) + std::chrono::days(days));
}

std::vector<DueDay> due_days(const Plan& plan) {
    std::map<std::chrono::local_days, std::vector<Due>> days;
    for (const std::size_t station : plan.walk)
        for (const LocalTime time : plan.stations.at(station).visits)
            days[std::chrono::floor<std::chrono::days>(time)].push_back({station, time});
    std::vector<DueDay> all;
    all.reserve(days.size());
    for (auto& [day, visits] : days) all.push_back({Date(day), std::move(visits)});
    return all;
}

}  // namespace gallipot::plan
