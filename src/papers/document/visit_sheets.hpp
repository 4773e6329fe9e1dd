#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// For those who write by hand: how to fill in, then for every round a table of its containers in
/// walking order, with the fields of the visit log. Rounds of one row share a table. The count
/// before setting out is written on the placement plan. `plan` is the job's.
Sheet visit_sheets(const job::Job& job, const plan::Plan& plan, const text::Catalog& words);

}  // namespace gallipot::document
