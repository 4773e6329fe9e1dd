#pragma once

#include <cstddef>
#include <vector>

#include "base/units/quantity.hpp"
#include "tracking/analysis/report.hpp"

/// Who is to be visited next, on which day and in which order.
namespace gallipot::analysis {

struct Stop {
    std::size_t station = 0;  ///< index into Report::stations
    std::vector<Step> steps;  ///< what is to be done there, each with its own date
};

struct Round {
    Day on{};
    std::vector<Stop> stops;  ///< in walking order
};

/// Every step of the report as walks, the next one first: a walk reaches over as many days as the
/// plan's rounds do, see plan::round_days(). Taking up is never done early, and
/// "keep going" needs no walk. `walk` holds every station's index once, in walking order.
std::vector<Round> rounds(const Report& report, const std::vector<std::size_t>& walk,
                          units::Duration within = units::days(1));

/// What is to be done at one container on a stop.
struct Task {
    int number = 0;  ///< from 1; 0 at a station without containers
    std::vector<Step> steps;
};

/// A stop container by container: what holds of the station is to be done at each, but at one that
/// is missing. Those taken up are left out.
std::vector<Task> tasks_of(const StationReport& station, const Stop& stop);

/// Whether these steps leave nothing in the container but fresh bait.
bool is_filled_afresh(const Task& task);

/// How much of a container is to be filled with fresh bait to do these steps: 1 where it is filled
/// anew, the part that is gone where it is topped up, 0 else.
double to_fill(const StationReport& station, const Task& task);

}  // namespace gallipot::analysis
