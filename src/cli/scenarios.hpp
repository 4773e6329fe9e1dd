#pragma once

#include <string>
#include <vector>

namespace gallipot::cli {

/// The examples that `new --from` starts from: files of examples/, installed with the program.
const std::vector<std::string>& scenarios();

}  // namespace gallipot::cli
