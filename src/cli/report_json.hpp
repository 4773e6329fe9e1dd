#pragma once

#include <string>
#include <vector>

#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"
#include "tracking/analysis/rounds.hpp"

namespace gallipot::cli {

/// The report for programs. `words` gives the verdicts' sentences; every other word in it is the
/// same in every language. What there is no figure for is null.
std::string report_json(const job::Job& job, const analysis::Report& report, const plan::Plan& plan,
                        const std::vector<analysis::Round>& walks, const text::Catalog& words);

}  // namespace gallipot::cli
