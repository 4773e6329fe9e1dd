#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// For those who write by hand: for every day on which visits are due the stations in walking
/// order, with the fields of the visit log. `plan` is the job's.
Sheet visit_sheets(const job::Job& job, const plan::Plan& plan, const text::Catalog& words);

}  // namespace gallipot::document
