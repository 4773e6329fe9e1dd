#pragma once

#include <cstddef>
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
    /// What is shown and judged by: the same, but never narrower than counting alone makes it (the
    /// Poisson's own error and the normal's quantile). A few counts that happen to lie on a line
    /// would otherwise look certain.
    [[nodiscard]] std::optional<Interval> cautious_slope_interval() const;
    /// Expected count of a group at `day` and exposure 1, and its cautious interval (never below
    /// zero).
    [[nodiscard]] double expected(std::size_t group, double day) const;
    [[nodiscard]] std::optional<Interval> expected_interval(std::size_t group, double day) const;
};

/// Each group's counts in any order. What cannot be fitted says why.
Decline fit_decline(std::span<const std::vector<Count>> groups);
/// The same with one group.
Decline fit_decline(const std::vector<Count>& counts);

/// Days in which the numbers fall to `share` of what they were (0.5: to half), and the cautious
/// interval. None when the slope does not fall; no `high` when it may as well not be falling.
struct FallTime {
    double days = 0;
    std::optional<double> low, high;
};
std::optional<FallTime> fall_time(const Decline& decline, double share);

}  // namespace gallipot::analysis
