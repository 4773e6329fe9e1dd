#pragma once

#include "cli/figure.hpp"
#include "domain/plan/plan.hpp"

namespace gallipot::cli {

/// The planned rounds of a job: day and local time of each walk, and its stops in walking order,
/// each with the time at which the visit there falls due.
Json rounds_json(const plan::Plan& plan);

/// "2027-03-02"
std::string iso(job::Date date);
/// "2027-03-02T19:30"
std::string iso(job::LocalTime time);

}  // namespace gallipot::cli
