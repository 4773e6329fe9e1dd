#pragma once

#include <string>

namespace gallipot::cli {

/// `-` as the name of an output is standard output; a file of that name is written as ./-
bool is_standard_output(const std::string& name);

/// For an output that cannot go there: throws system::UsageError when `name` is `-`.
void refuse_standard_output(const std::string& option, const std::string& name);

/// Beside a job lie its secret and its log, which take the names that end as theirs do: throws
/// system::UsageError for one of those.
void refuse_name_beside_job(const std::string& name);

}  // namespace gallipot::cli
