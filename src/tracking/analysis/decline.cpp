#include "tracking/analysis/decline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tracking/analysis/quantile.hpp"

namespace gallipot::analysis {

namespace {

constexpr double confidence = 0.95;

/// A group's counts on a clock shifted and scaled to -1 ... 1, so that exp() neither overflows nor
/// loses figures, with what the likelihood needs of it.
struct Group {
    std::size_t index = 0;
    std::vector<Count> counts;
    double total = 0;
    double mean_time = 0;  ///< of the pests seen
    double earliest = 0, latest = 0;
};

/// With weights exposure x exp(slope x time): their mean and variance in time, and the log of their
/// sum.
struct Weighted {
    double mean = 0, variance = 0, log_sum = 0;
};

Weighted weigh(const Group& group, double slope) {
    // The largest exponent, which sits at one end of the clock, is taken out first: factors of 1 or
    // less. Moments are taken about the pests' own mean time, so that little is lost in the
    // difference.
    const double largest = slope * (slope > 0 ? group.latest : group.earliest);
    double sum = 0, first = 0, second = 0;
    for (const Count& c : group.counts) {
        const double weight = c.exposure * std::exp(slope * c.day - largest);
        const double off = c.day - group.mean_time;
        sum += weight;
        first += weight * off;
        second += weight * off * off;
    }
    const double shift = first / sum;
    return {group.mean_time + shift, second / sum - shift * shift, std::log(sum) + largest};
}

/// Derivative of the log-likelihood in the slope once each intercept is at its best: the pests' own
/// mean time against the line's. It falls as the slope rises, so it has one root.
struct Score {
    double value = 0, information = 0;
};

Score score(const std::vector<Group>& groups, double slope) {
    Score result;
    for (const Group& group : groups) {
        const Weighted weighted = weigh(group, slope);
        result.value += group.total * (group.mean_time - weighted.mean);
        result.information += group.total * weighted.variance;
    }
    return result;
}

/// A level line comes out as rounding noise of either sign: it is level.
double settle(double slope) {
    return std::abs(slope) < 1e-13 ? 0 : slope;
}

/// Newton's steps, kept between the slopes known to be too low and too high.
double solve(const std::vector<Group>& groups) {
    double low = -std::numeric_limits<double>::infinity(), high = -low;
    double slope = 0;
    for (int step = 0; step < 200; ++step) {
        const Score at = score(groups, slope);
        (at.value > 0 ? low : high) = slope;
        const double furthest = 2 * std::max(1.0, std::abs(slope));
        const double newton = at.value / at.information;
        double next = slope + (std::isfinite(newton) ? std::clamp(newton, -furthest, furthest)
                                                     : std::copysign(furthest, at.value));
        if (std::abs(next - slope) <= 1e-14 * std::max(1.0, std::abs(slope))) return settle(next);
        // Only a slope that has been tried bounds the next one: both ends are finite here.
        if (!(next > low && next < high)) next = low + (high - low) / 2;
        slope = next;
    }
    return settle(slope);
}

/// Whether the slope has no bound: every group's pests were all seen at its earliest time, or all
/// at its latest.
bool at_one_end(const std::vector<Group>& groups) {
    bool all_first = true, all_last = true;
    for (const Group& group : groups) {
        for (const Count& c : group.counts) {
            if (c.seen == 0) continue;
            if (c.day != group.earliest) all_first = false;
            if (c.day != group.latest) all_last = false;
        }
    }
    return all_first || all_last;
}

double pearson(const Group& group, double intercept, double slope) {
    double sum = 0;
    for (const Count& c : group.counts) {
        const double expected = c.exposure * std::exp(intercept + slope * c.day);
        const double off = c.seen - expected;
        // Where none was seen the term is the expected count itself, even when that underflows.
        sum += c.seen == 0 ? expected : off * off / expected;
    }
    return sum;
}

}  // namespace

Decline fit_decline(std::span<const std::vector<Count>> all) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    Decline result;
    result.intercepts.assign(all.size(), nan);
    result.middle.assign(all.size(), nan);
    result.total.assign(all.size(), 0);

    double earliest = std::numeric_limits<double>::infinity(), latest = -earliest;
    bool any_span = false;
    for (const auto& counts : all) {
        if (counts.empty()) continue;
        const auto [first, last] =
            std::minmax_element(counts.begin(), counts.end(),
                                [](const Count& a, const Count& b) { return a.day < b.day; });
        any_span = any_span || first->day < last->day;
        earliest = std::min(earliest, first->day);
        latest = std::max(latest, last->day);
    }
    if (!any_span) return result;
    const double centre = earliest + (latest - earliest) / 2, half = (latest - earliest) / 2;

    // Groups in which none was seen say nothing of the slope.
    std::vector<Group> groups;
    bool spread = false;
    for (std::size_t g = 0; g < all.size(); ++g) {
        Group group;
        group.index = g;
        group.counts.reserve(all[g].size());
        group.earliest = 1;
        group.latest = -1;
        for (const Count& c : all[g]) {
            const double time = (c.day - centre) / half;
            group.counts.push_back({time, c.seen, c.exposure});
            group.total += c.seen;
            group.mean_time += c.seen * time;
            group.earliest = std::min(group.earliest, time);
            group.latest = std::max(group.latest, time);
        }
        if (group.total == 0) continue;
        group.mean_time /= group.total;
        spread = spread || group.earliest < group.latest;
        result.total[g] = group.total;
        result.counts += group.counts.size();
        groups.push_back(std::move(group));
    }
    if (groups.empty()) {
        result.fitted = Fitted::none_seen;
        return result;
    }
    if (!spread) return result;
    if (at_one_end(groups)) {
        result.fitted = Fitted::at_one_end;
        return result;
    }

    const double scaled = solve(groups);
    double information = 0, chi_squared = 0;
    for (const Group& group : groups) {
        const Weighted weighted = weigh(group, scaled);
        const double intercept = std::log(group.total) - weighted.log_sum;
        information += group.total * weighted.variance;
        chi_squared += pearson(group, intercept, scaled);
        result.intercepts[group.index] = intercept - scaled * centre / half;
        result.middle[group.index] = centre + half * weighted.mean;
    }
    result.fitted = Fitted::yes;
    result.slope = scaled / half;
    result.plain_slope_error = 1 / std::sqrt(information) / half;
    const std::size_t parameters = groups.size() + 1;
    if (result.counts > parameters) {
        result.degrees_of_freedom = result.counts - parameters;
        result.dispersion = chi_squared / static_cast<double>(result.degrees_of_freedom);
        result.slope_error = std::sqrt(*result.dispersion) * result.plain_slope_error;
        result.quantile = t_quantile(confidence, static_cast<double>(result.degrees_of_freedom));
    }
    return result;
}

Decline fit_decline(const std::vector<Count>& counts) {
    return fit_decline(std::span(&counts, 1));
}

namespace {

/// Standard errors of the plain Poisson (dispersion 1) that the cautious interval reaches.
double cautious_reach(const Decline& fit) {
    static const double normal = t_quantile(confidence, std::numeric_limits<double>::infinity());
    return std::max(fit.quantile * std::sqrt(*fit.dispersion), normal);
}

/// Standard error of log(expected) at `day` with dispersion 1: the group's own level and the
/// slope's share, which are uncorrelated about the middle.
double plain_error(const Decline& fit, std::size_t group, double day) {
    const double tilt = (day - fit.middle[group]) * fit.plain_slope_error;
    return std::sqrt(1 / fit.total[group] + tilt * tilt);
}

Interval around(double middle, double reach) {
    return {middle - reach, middle + reach};
}

}  // namespace

std::optional<double> Decline::intercept_error(std::size_t group) const {
    if (!dispersion) return std::nullopt;
    return std::sqrt(*dispersion) * plain_error(*this, group, 0);
}

std::optional<Interval> Decline::slope_interval() const {
    if (!slope_error) return std::nullopt;
    return around(slope, quantile * *slope_error);
}

std::optional<Interval> Decline::cautious_slope_interval() const {
    if (!slope_error) return std::nullopt;
    return around(slope, cautious_reach(*this) * plain_slope_error);
}

double Decline::expected(std::size_t group, double day) const {
    return std::exp(intercepts[group] + slope * day);
}

std::optional<Interval> Decline::expected_interval(std::size_t group, double day) const {
    if (!dispersion) return std::nullopt;
    const Interval log = around(intercepts[group] + slope * day,
                                cautious_reach(*this) * plain_error(*this, group, day));
    return Interval{std::exp(log.low), std::exp(log.high)};
}

std::optional<FallTime> fall_time(const Decline& decline, double share) {
    if (decline.fitted != Fitted::yes || !(decline.slope < 0)) return std::nullopt;
    const double fall = std::log(share);
    FallTime result{fall / decline.slope, {}, {}};
    if (const auto slopes = decline.cautious_slope_interval()) {
        result.low = fall / slopes->low;
        if (slopes->high < 0) result.high = fall / slopes->high;
    }
    return result;
}

}  // namespace gallipot::analysis
