#pragma once

#include "analysis/report.hpp"
#include "document/content.hpp"
#include "job/job.hpp"
#include "plan/plan.hpp"
#include "safety/who_to_call.hpp"
#include "text/catalog.hpp"

namespace gallipot::document {

/// A page for whoever looks after the baits next: what stands where, what to do at every visit,
/// when to stop, what the report's figures are, whom to call.
Sheet takeover_sheet(const job::Job& job, const plan::Plan& plan, const analysis::Report& report,
                     const safety::WhoToCall& who, const text::Catalog& words);

}  // namespace gallipot::document
