#pragma once

/// The few distributions the report needs, from Boost.Math.
namespace gallipot::analysis {

/// Half the width of a two-sided interval in standard errors: Student's t with `df` degrees of
/// freedom (more than 0; infinity gives the normal's 1.96), `confidence` between 0 and 1.
double t_quantile(double confidence, double df);

/// Chance of a Student's t as far from zero, or further, either way. 1 for what is no number.
double t_chance(double t, double df);

/// Chance that a t test claims a positive effect that truly lies `noncentrality` standard errors
/// from none, at that confidence (two-sided).
double t_power(double noncentrality, double df, double confidence);

/// Chance of a difference as large as that between `first` and `second`, or larger, either way,
/// when both are counts of the same density: given their sum, each pest falls to the first with the
/// chance `first_share`, its part of the exposure. Where counts scatter `dispersion` times as wide
/// as by chance alone, so many pests stand for one. 1 when both are zero.
double same_mean_chance(double first, double second, double first_share, double dispersion);

/// Chance of seeing none where `expected` are, counts having a negative binomial distribution with
/// a variance of `dispersion` (1 or more: then Poisson) times the mean.
double none_chance(double expected, double dispersion);

}  // namespace gallipot::analysis
