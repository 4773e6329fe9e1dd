#pragma once

#include <string>

#include "job/job.hpp"
#include "plan/plan.hpp"

namespace gallipot::command {

/// The plan as JSON: SI numbers, names with their unit, keys as the README lists them. Figures are
/// given to twelve significant digits, so that the last bits of a machine do not show.
std::string plan_json(const job::Job& job, const plan::Plan& plan,
                      const std::vector<std::string>& warnings);

}  // namespace gallipot::command
