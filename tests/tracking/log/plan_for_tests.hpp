#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "domain/plan/plan.hpp"

namespace gallipot::tests {

/// 2027-03-02 19:30 and so on.
inline plan::LocalTime at(int year, unsigned month, unsigned day, int hour, int minute) {
    namespace ch = std::chrono;
    return ch::local_days(ch::year(year) / ch::month(month) / ch::day(day)) + ch::hours(hour) +
           ch::minutes(minute);
}

/// K1 with two cups; C1, a control.
inline plan::Plan two_stations() {
    plan::Station k1;
    k1.id = "K1";
    k1.containers = 2;
    k1.container_ids = {"K1-1", "K1-2"};
    plan::Station c1;
    c1.id = "C1";
    plan::Plan plan;
    plan.stations = {k1, c1};
    return plan;
}

}  // namespace gallipot::tests
