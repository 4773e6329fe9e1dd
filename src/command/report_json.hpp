#pragma once

#include <string>
#include <vector>

#include "analysis/report.hpp"
#include "analysis/rounds.hpp"
#include "plan/plan.hpp"
#include "text/catalog.hpp"

namespace gallipot::command {

/// The report for programs. `words` gives the verdicts' sentences; every other word in it is the
/// same in every language. What there is no figure for is null.
std::string report_json(const analysis::Report& report, const plan::Plan& plan,
                        const std::vector<analysis::Round>& walks, const text::Catalog& words);

}  // namespace gallipot::command
