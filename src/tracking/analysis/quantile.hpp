#pragma once

/// The few distributions the report needs, from Boost.Math.
namespace gallipot::analysis {

/// Half the width of a two-sided interval in standard errors: Student's t with `df` degrees of
/// freedom (more than 0; infinity gives the normal's 1.96), `confidence` between 0 and 1.
double t_quantile(double confidence, double df);

/// Chance of a difference as large as that between `first` and `second`, or larger, either way,
/// when both are counts of the same density: given their sum, each pest falls to the first with the
/// chance `first_share`, its part of the exposure. 1 when both are zero.
double same_mean_chance(double first, double second, double first_share = 0.5);

}  // namespace gallipot::analysis
