#include "domain/plan/due.hpp"

#include <map>

namespace gallipot::plan {

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
