#pragma once

#include "document/content.hpp"
#include "job/job.hpp"
#include "plan/plan.hpp"
#include "safety/who_to_call.hpp"
#include "text/catalog.hpp"

namespace gallipot::document {

/// For whoever sets everything out: each floor to scale, then every station in walking order with
/// what goes there and what to look at before it is set down. `plan` is the job's.
Sheet placement_plan(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                     const text::Catalog& words);

}  // namespace gallipot::document
