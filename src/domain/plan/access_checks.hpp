#pragma once

#include "base/diag/diagnostic.hpp"
#include "domain/plan/plan.hpp"

/// Who can get at what is set out. Not for other layers.
namespace gallipot::plan {

/// Errors for cups near children or pets that are open at the top or hold more than a child should
/// find (safety/dose.hpp), unless they stand in a locked box.
void check_access(const job::Job& job, const Plan& plan, diag::Diagnostics& out);

}  // namespace gallipot::plan
