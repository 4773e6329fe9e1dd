#pragma once

#include <iosfwd>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "app/label_papers.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::cli {

/// The plan as JSON: SI numbers, names with their unit, keys as the README lists them. Figures are
/// given to twelve significant digits, so that the last bits of a machine do not show. `labels`
/// says how the label of each container of the plan is set; it may be empty.
void write_plan_json(std::ostream& out, const job::Job& job, const safety::WhoToCall& who,
                     const plan::Plan& plan, const std::vector<app::LabelOnStock>& labels,
                     const std::vector<std::string>& warnings);

}  // namespace gallipot::cli
