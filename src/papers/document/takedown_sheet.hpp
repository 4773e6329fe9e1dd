#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"

namespace gallipot::document {

/// For the end: every container by its number in walking order, to tick off as found or missing,
/// then the bottles and jars, and what to do with what is left. `plan` is the job's. With the
/// `report` of its log each says what it was filled with last, and what was found and not put
/// right; null: nobody has visited.
Sheet takedown_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                     const text::Catalog& words, const analysis::Report* report = nullptr);

}  // namespace gallipot::document
