#pragma once

#include <optional>
#include <string>

#include "tracking/analysis/days.hpp"

namespace gallipot::cli {

/// A day as options take it, "2027-03-18"; none for anything else.
std::optional<analysis::Day> read_day(const std::string& text);

}  // namespace gallipot::cli
