#pragma once

#include <optional>

#include "tracking/analysis/history.hpp"
#include "tracking/analysis/verdict.hpp"

namespace gallipot::analysis {

/// What checks of treated wood come to. A count is that of new holes since the look before; what
/// was counted by the time of treatment is how it was before, and says nothing. One of wood_active,
/// wood_quiet and wood_unknown.
Verdict wood_verdict(std::optional<LocalTime> treated, const Counts& counts);

}  // namespace gallipot::analysis
