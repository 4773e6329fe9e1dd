#pragma once

#include "document/content.hpp"
#include "job/job.hpp"
#include "plan/plan.hpp"
#include "safety/who_to_call.hpp"
#include "text/catalog.hpp"

namespace gallipot::document {

/// The sheet to hang up for everybody in the building, in plain words: what it is, what it looks
/// like, where it stands, what to do and not to do, what if. `plan` is the job's.
Sheet household_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                      const text::Catalog& words);

}  // namespace gallipot::document
