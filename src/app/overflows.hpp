#pragma once

#include <string>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "papers/layout/overflow.hpp"

namespace gallipot::app {

/// The value of an option as a place that a message can show: "command line:1:9".
diag::Place place_of_option(const std::string& option, const std::string& value);

/// Where the label stock was chosen: with --stock, with `labels` in the job, or, where neither says
/// anything, the job's title.
diag::Place place_of_stock(const job::Job& job, const std::string& stock_option);

/// What did not fit, as errors of the job. Each has a place: what the papers cannot print and words
/// that are too wide where they stand in the job, labels where their stock was chosen, all else the
/// title of the mix or of the job.
void tell_overflows(const std::vector<layout::Overflow>& overflows, const job::Job& job,
                    const std::string& stock_option, diag::Diagnostics& out);

}  // namespace gallipot::app
