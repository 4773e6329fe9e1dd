#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"

namespace gallipot::job {

/// Bytes of a job file, and of a table that it names.
inline constexpr std::size_t maximum_bytes = 32u << 20;

/// A table's file, or why it cannot be read.
struct TableFile {
    diag::SourcePtr source;  ///< null where it cannot be read
    diag::Text why;          ///< then: "there is no such file"
    diag::Text remedy;       ///< and what to do about it
};

/// Gives the file that a job names behind `from`: a relative name that leads nowhere above the
/// job's folder and ends in `.csv`.
using OpenTable = std::function<TableFile(const std::string& name)>;

/// Reads a job file, strictly, and its tables. Everything that is wrong with them goes to `out` in
/// one run, and so do warnings about what is lawful but unwise, unless the job changes in the
/// course of time: then advise() is for who knows the day. Nothing is returned when there was an
/// error. Without `open_table` a job that names a table is in error.
std::optional<Job> read_job(const diag::SourcePtr& source, diag::Diagnostics& out,
                            const OpenTable& open_table = {});

/// Warns of what is lawful but unwise in a job without errors, as it is on a day (on_day.hpp).
void advise(const Job& job, diag::Diagnostics& out);

}  // namespace gallipot::job
