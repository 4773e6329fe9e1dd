#pragma once

#include <string_view>

#include "tracking/analysis/verdict.hpp"

/// What programs read of next steps: the words of `report --json` and `round --json`.
namespace gallipot::cli {

std::string_view word(analysis::Action action);  ///< "top up"
/// "none" where the action says it itself.
std::string_view word(analysis::Why why);

}  // namespace gallipot::cli
