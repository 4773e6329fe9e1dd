#pragma once

#include <filesystem>

#include "domain/job/reader.hpp"

namespace gallipot::app {

/// Opens the tables that a job names, in the folder of the job's file and those below it. A link is
/// followed as long as it stays in there; what is no regular file is never waited for. No output of
/// this run replaces a table, nor takes the name of one that is missing. The function throws
/// system::SystemError.
job::OpenTable tables_beside(const std::filesystem::path& job_file);

}  // namespace gallipot::app
