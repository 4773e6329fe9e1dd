#pragma once

#include <vector>

#include "base/diag/diagnostic.hpp"
#include "papers/layout/misfit.hpp"

namespace gallipot::command {

/// What does not fit its paper is the job's to mend, so it is told as an error of the job: of a
/// letter that no font has once, where the job first holds it, of all else for the job as a whole.
void tell_misfits(const std::vector<layout::Misfit>& misfits, const diag::SourcePtr& job,
                  diag::Diagnostics& out);

}  // namespace gallipot::command
