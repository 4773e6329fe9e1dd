#pragma once

#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"
#include "tracking/analysis/rounds.hpp"

namespace gallipot::document {

/// The sheet of one round: a row for each container, floor by floor in the order of the walk, with
/// what to do there and room to write; what to make and to bring before it. `made_job` and `made`
/// are of what is made afresh for it, and may be empty.
Sheet round_sheet(const job::Job& job, const analysis::Report& report,
                  const std::vector<analysis::Stop>& stops, analysis::Day on,
                  const job::Job& made_job, const plan::Plan& made, const text::Catalog& words);

/// One thing to take along.
struct ToBring {
    std::string what;
    std::string amount;
};
/// The mixes made for the round, the containers that take the place of lost ones, and the labels.
std::vector<ToBring> to_bring(const job::Job& job, const analysis::Report& report,
                              const std::vector<analysis::Stop>& stops, const job::Job& made_job,
                              const plan::Plan& made, const text::Catalog& words);

/// "missing", "clogged and wet": what is open at a container; empty for nothing.
std::string states_text(visit::Marks<visit::State> states, const text::Catalog& words);

}  // namespace gallipot::document
