#pragma once

#include <cstddef>
#include <vector>

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

/// Every step of the report as walks, the next one first: what falls due within
/// rules::same_round_days of a walk is done on it. Taking up is never done early, and "keep going"
/// needs no walk. `walk` holds every station's index once, in walking order.
std::vector<Round> rounds(const Report& report, const std::vector<std::size_t>& walk);

}  // namespace gallipot::analysis
