#pragma once

#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"

/// What the user has read and means: `accept: [codes]`.
namespace gallipot::job {

/// Every warning, and those errors that say how a job departs from what is published.
bool may_be_accepted(const diag::Diagnostic& found);

/// Takes the accepted ones out of `found` and returns them.
std::vector<diag::Diagnostic> take_accepted(const Job& job, diag::Diagnostics& found);

/// Warns of every acceptance that none of `taken` has used, so that a slip in a code is noticed and
/// an old one goes. `found` still holds what was not accepted.
void check_accepted(const Job& job, const std::vector<diag::Diagnostic>& taken,
                    diag::Diagnostics& found);

}  // namespace gallipot::job
