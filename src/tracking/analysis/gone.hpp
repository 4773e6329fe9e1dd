#pragma once

#include <span>

#include "tracking/analysis/history.hpp"

/// When counts of none mean that the pests are gone.
namespace gallipot::analysis {

/// The counts of none that a series ends with.
struct NoneLast {
    int rounds = 0;  ///< on different days
    /// Pests in each, had nothing changed: the mean of the two counts before, or of all before
    /// where that is less.
    double expected = 0;
};
NoneLast none_last(std::span<const Total> series);

/// The chance of seeing none so often although nothing has changed. 1 where some were seen last, or
/// none ever.
double chance_of(const NoneLast& none, double dispersion);

}  // namespace gallipot::analysis
