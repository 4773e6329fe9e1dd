#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// For whoever sets everything out: each floor to scale, then every station in walking order with
/// what goes there and what to look at before it is set down. `plan` is the job's.
Sheet placement_plan(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                     const text::Catalog& words);

}  // namespace gallipot::document
