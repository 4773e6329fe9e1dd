#pragma once

#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// For those who write by hand: how to fill in, with the first count; then for every round its
/// stations in walking order, with the fields of the visit log. Small rounds share a sheet. `plan`
/// is the job's.
std::vector<Sheet> visit_sheets(const job::Job& job, const plan::Plan& plan,
                                const text::Catalog& words);

}  // namespace gallipot::document
