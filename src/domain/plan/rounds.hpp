#pragma once

#include <chrono>
#include <vector>

#include "domain/plan/due.hpp"
#include "domain/plan/plan.hpp"

/// Joins planned visits that fall due close together into rounds: one walk each.
namespace gallipot::plan {

/// One walk: each station at most once.
struct Round {
    LocalTime time{};        ///< when it begins
    std::vector<Due> stops;  ///< in walking order, each with the time it falls due at
};

/// How many calendar days a round reaches over, its first among them: one for a window of less
/// than two days; part of a day does not count.
std::chrono::days round_days(units::Duration within);

/// Every planned visit in one round, by time. A round takes in what falls due within
/// Plan::round_within of its first visit: a window of a day or more counts calendar days, a
/// shorter one goes by the clock. It begins when the last of its visits falls due, so that none is
/// made before its time has run. No visit waits for the next one to its own station, nor past the
/// day on which the bait there is to be replaced; one planned hours after placing or the visit
/// before waits for no longer than that again, or two hours. There are as few rounds as that
/// allows; a visit that two rounds could take goes where less waits.
std::vector<Round> rounds(const Plan& plan);

/// The first counts: the stations with a time of placing, joined by the same window. Each begins
/// with the first of its placings, since it is counted before anything is set out.
std::vector<Round> placing_rounds(const Plan& plan);

}  // namespace gallipot::plan
