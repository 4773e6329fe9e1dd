#pragma once

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/reference/pests.hpp"

/// What the table of pests has to say to a job. Not for other layers: they call make_plan.
namespace gallipot::plan {

/// The form of a mix as the table of pests calls it.
reference::Preparation preparation(job::Form form);

/// Whether a home-made borate mix of this form is any use against its pest. Codes:
/// no-published-support, advised-against, termite-food-bait and report-first are errors (which the
/// job may accept); several-pests, weak-support, unpublished-form and not-inspected are warnings.
void check_support(const job::Job& job, const job::Mix& mix, diag::Diagnostics& out);

}  // namespace gallipot::plan
