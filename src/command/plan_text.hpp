#pragma once

#include <string>

#include "command/terminal.hpp"
#include "job/job.hpp"
#include "plan/plan.hpp"
#include "text/catalog.hpp"

namespace gallipot::command {

/// The plan for the terminal, in the language of `words`: a table a mix, then stations, shopping
/// and cost.
std::string plan_text(const job::Job& job, const plan::Plan& plan, const text::Catalog& words,
                      const Terminal& terminal);

}  // namespace gallipot::command
