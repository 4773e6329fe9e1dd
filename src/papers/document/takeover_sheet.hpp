#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"

namespace gallipot::document {

/// A page for whoever looks after the baits next: what stands where, what to do at every visit,
/// when to stop, what the report's figures are, whom to call.
Sheet takeover_sheet(const job::Job& job, const plan::Plan& plan, const analysis::Report& report,
                     const safety::WhoToCall& who, const text::Catalog& words);

}  // namespace gallipot::document
