#pragma once

#include <string>

#include "domain/plan/mix_planner.hpp"

/// Whether what there is to measure with gives what the recipe asks. Not for other layers.
namespace gallipot::plan {

/// How to come nearer with the same recipe: sizes of a batch that come out right, and a measure
/// that would do it. Never a scale where the job lists one, unless it is a finer one.
diag::Text finer_measures(const job::Job& job, const MixCalculation& calculation,
                          std::size_t ingredient);

/// Codes: no-measure-for, measure-off, coarse-scale, many-uses.
void check_measures(const job::Job& job, const MixCalculation& calculation, diag::Diagnostics& out);

}  // namespace gallipot::plan
