#pragma once

#include "document/content.hpp"
#include "job/job.hpp"
#include "plan/plan.hpp"
#include "safety/who_to_call.hpp"
#include "text/catalog.hpp"

namespace gallipot::document {

/// For the end: every container by its number in walking order, to tick off as found or missing,
/// then the bottles and jars, and what to do with what is left. `plan` is the job's.
Sheet takedown_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                     const text::Catalog& words);

}  // namespace gallipot::document
