#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// The sheet to hang up for everybody in the building, in plain words: what it is, what it looks
/// like, where it stands, what to do and not to do, what if. `plan` is the job's.
Sheet household_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                      const text::Catalog& words);

}  // namespace gallipot::document
