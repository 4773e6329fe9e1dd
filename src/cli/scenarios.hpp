#pragma once

#include <string>
#include <vector>

namespace gallipot::cli {

/// What `new --from` starts from: kitchen recipes of templates/jobs and whole jobs of examples/, all
/// installed with the program.
const std::vector<std::string>& scenarios();

}  // namespace gallipot::cli
