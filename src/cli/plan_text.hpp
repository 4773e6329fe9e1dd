#pragma once

#include <string>

#include "cli/terminal.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::cli {

/// The plan for the terminal, in the language of `words`: a table a mix, then stations, shopping
/// and cost.
std::string plan_text(const job::Job& job, const plan::Plan& plan, const text::Catalog& words,
                      const Terminal& terminal);

}  // namespace gallipot::cli
