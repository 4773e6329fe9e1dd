#pragma once

#include <span>
#include <vector>

#include "tracking/analysis/decline.hpp"

/// Places truly differ in how fast their pests come and go. What is estimated at each is joined
/// with room for that: a random-effects mean for each arm of a comparison (treated, control), the
/// variance between places in common.
namespace gallipot::analysis {

using Arm = std::vector<Estimate>;  ///< one estimate a place

/// The variance between places beyond that of the estimates, 0 or more: where the weighted squares
/// about the arms' means come to their degrees of freedom, which are the places less the arms that
/// have any. 0 without degrees of freedom. R. C. Paule, J. Mandel 1982, J. Res. Nat. Bur. Standards
/// 87:377-385 (recalled); the same as metafor's rma(method = "PM").
double variance_between(std::span<const Arm> arms);

/// Mean of an arm's places (at least one), each weighted by 1/(its variance + `between`).
Estimate mean_of(const Arm& arm, double between);

}  // namespace gallipot::analysis
