#pragma once

#include <optional>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"

namespace gallipot::job {

/// Reads a job file, strictly. Everything that is wrong with it goes to `out` in one run, and so do
/// warnings about what is lawful but unwise. Nothing is returned when there was an error.
std::optional<Job> read_job(const diag::SourcePtr& source, diag::Diagnostics& out);

}  // namespace gallipot::job
