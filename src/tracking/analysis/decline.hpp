#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

/// Poisson regression of counts on time: log(expected / exposure) = intercept + slope x days, the
/// slope shared by all groups and an intercept for each (R: glm(seen ~ group + days,
/// offset = log(exposure), quasipoisson)).
/// The scatter about the line is estimated (Pearson's chi-squared over its degrees of freedom), so
/// zeros count and clumped pests widen the interval.
namespace gallipot::analysis {

struct Count {
    double day = 0;       ///< on any one clock
    double seen = 0;      ///< as counted, 0 or more
    double exposure = 1;  ///< how long or with how many traps, in any one unit; more than 0
};

/// An estimate's bounds at 95 %.
struct Interval {
    double low = 0, high = 0;
};

/// How much wider than by chance alone counts scatter about their lines: variance over mean.
struct Dispersion {
    double value = 1;
    double degrees = std::numeric_limits<double>::infinity();  ///< that it was estimated with
    /// Half a 95 % interval, in standard errors of dispersion 1.
    [[nodiscard]] double reach() const;
};

enum class Fitted {
    yes,
    too_few,    ///< fewer than two counts, or all at one time
    none_seen,  ///< all zero
    at_one_end  ///< pests only at the first time, or only at the last: the slope has no bound
};

struct Decline {
    Fitted fitted = Fitted::too_few;
    double slope = 0;  ///< change of log(expected) a day; negative: a fall
    /// log(expected) at day 0 and exposure 1, by group; NaN where none was seen.
    std::vector<double> intercepts;
    std::size_t counts = 0;              ///< n, of the groups in which any was seen
    std::size_t degrees_of_freedom = 0;  ///< n less the parameters
    double chi_squared = 0;              ///< Pearson's
    /// None without degrees of freedom: then the line runs through the counts and has no interval.
    std::optional<double> dispersion;
    std::optional<double> slope_error;  ///< standard error, the dispersion in it
    double quantile = 0;                ///< half the 95 % interval in standard errors: Student's t
    double plain_slope_error = 0;       ///< the same with dispersion 1: what counting alone gives

    /// Of each group: where its weight lies in time, and how much weight there is.
    std::vector<double> middle;  ///< mean day, weighted by expected counts
    std::vector<double> total;   ///< pests counted in all

    /// Of a group's intercept; none when the slope has none.
    [[nodiscard]] std::optional<double> intercept_error(std::size_t group) const;
    /// By Student's t, for the dispersion is estimated as well: R's estimate +- qt() x error.
    [[nodiscard]] std::optional<Interval> slope_interval() const;
    /// The same with the dispersion of several lines together.
    [[nodiscard]] Interval slope_interval(const Dispersion& pooled) const;
    /// Expected count of a group at `day` and exposure 1, and its interval (never below zero).
    [[nodiscard]] double expected(std::size_t group, double day) const;
    [[nodiscard]] Interval expected_interval(std::size_t group, double day,
                                             const Dispersion& pooled) const;
};

/// Each group's counts in any order. What cannot be fitted says why.
Decline fit_decline(std::span<const std::vector<Count>> groups);
/// The same with one group.
Decline fit_decline(const std::vector<Count>& counts);

/// Of several lines: the sum of Pearson's chi-squared over the sum of the degrees of freedom, and
/// never less than 1. Without any degrees of freedom, rules::assumed_dispersion.
Dispersion pooled_dispersion(std::span<const Decline> lines);
/// The same drawn towards rules::usual_dispersion, for lines through few counts each, picked where
/// a series turns: those fit anything.
double moderated_dispersion(std::span<const Decline> lines);

/// An estimate with its variance.
struct Estimate {
    double value = 0, variance = 0;
};
/// The slope and its variance at dispersion 1; where it has no bound (Fitted::at_one_end), the one
/// that Firth's correction gives, which always has: half of each count's leverage is added to it.
/// D. Firth 1993, Biometrika 80:27-38 (recalled). None where too little or nothing was counted.
std::optional<Estimate> finite_slope(std::span<const std::vector<Count>> groups);

/// Days in which the numbers fall to `share` of what they were (0.5: to half), and the interval.
/// None when the slope does not fall; no `high` when it may as well not be falling.
struct FallTime {
    double days = 0;
    std::optional<double> low, high;
};
std::optional<FallTime> fall_time(double slope, const std::optional<Interval>& interval,
                                  double share);

}  // namespace gallipot::analysis
