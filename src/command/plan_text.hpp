#pragma once

#include <string>

#include "job/job.hpp"
#include "plan/plan.hpp"
#include "text/catalog.hpp"

namespace gallipot::command {

/// The plan for the terminal: a table a mix, then stations, shopping and cost. `words` writes
/// figures and units.
std::string plan_text(const job::Job& job, const plan::Plan& plan, const text::Catalog& words);

}  // namespace gallipot::command
