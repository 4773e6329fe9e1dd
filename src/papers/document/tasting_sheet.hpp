#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// Before anything is mixed: which of sugar, fat and protein the pests take, by three counts at
/// three spots, and which of the job's mixes that calls for. For jobs that set out bait.
Sheet tasting_sheet(const job::Job& job, const plan::Plan& plan, const text::Catalog& words);

/// Whether the job sets out any bait, so that tasting means something.
bool sets_out_bait(const job::Job& job);

}  // namespace gallipot::document
