#include "tracking/analysis/decline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

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

/// The groups in which any was seen, on a clock from -1 to 1; the others say nothing of the slope.
struct Prepared {
    Fitted fitted = Fitted::too_few;
    double centre = 0, half = 1;
    std::vector<Group> groups;
};

void sum_up(Group& group) {
    group.total = group.mean_time = 0;
    for (const Count& c : group.counts) {
        group.total += c.seen;
        group.mean_time += c.seen * c.day;
    }
    if (group.total > 0) group.mean_time /= group.total;
}

Prepared prepare(std::span<const std::vector<Count>> all) {
    Prepared result;
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
    result.half = (latest - earliest) / 2;
    result.centre = earliest + result.half;
    bool spread = false;
    for (std::size_t g = 0; g < all.size(); ++g) {
        Group group;
        group.index = g;
        group.counts.reserve(all[g].size());
        group.earliest = 1;
        group.latest = -1;
        for (const Count& c : all[g]) {
            const double time = (c.day - result.centre) / result.half;
            group.counts.push_back({time, c.seen, c.exposure});
            group.earliest = std::min(group.earliest, time);
            group.latest = std::max(group.latest, time);
        }
        sum_up(group);
        if (group.total == 0) continue;
        spread = spread || group.earliest < group.latest;
        result.groups.push_back(std::move(group));
    }
    if (result.groups.empty())
        result.fitted = Fitted::none_seen;
    else if (spread)
        result.fitted = at_one_end(result.groups) ? Fitted::at_one_end : Fitted::yes;
    return result;
}

}  // namespace

Decline fit_decline(std::span<const std::vector<Count>> all) {
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    Decline result;
    result.intercepts.assign(all.size(), nan);
    result.middle.assign(all.size(), nan);
    result.total.assign(all.size(), 0);
    const auto [fitted, centre, half, groups] = prepare(all);
    result.fitted = fitted;
    for (const Group& group : groups) {
        result.total[group.index] = group.total;
        result.counts += group.counts.size();
    }
    if (fitted != Fitted::yes) return result;

    const double scaled = solve(groups);
    double information = 0;
    for (const Group& group : groups) {
        const Weighted weighted = weigh(group, scaled);
        const double intercept = std::log(group.total) - weighted.log_sum;
        information += group.total * weighted.variance;
        result.chi_squared += pearson(group, intercept, scaled);
        result.intercepts[group.index] = intercept - scaled * centre / half;
        result.middle[group.index] = centre + half * weighted.mean;
    }
    result.slope = scaled / half;
    result.plain_slope_error = 1 / std::sqrt(information) / half;
    const std::size_t parameters = groups.size() + 1;
    if (result.counts > parameters) {
        result.degrees_of_freedom = result.counts - parameters;
        result.dispersion = result.chi_squared / static_cast<double>(result.degrees_of_freedom);
        result.slope_error = std::sqrt(*result.dispersion) * result.plain_slope_error;
        result.quantile = t_quantile(confidence, static_cast<double>(result.degrees_of_freedom));
    }
    return result;
}

Decline fit_decline(const std::vector<Count>& counts) {
    return fit_decline(std::span(&counts, 1));
}

Dispersion pooled_dispersion(std::span<const Decline> lines) {
    double chi_squared = 0, degrees = 0;
    for (const Decline& line : lines) {
        chi_squared += line.chi_squared;
        degrees += static_cast<double>(line.degrees_of_freedom);
    }
    if (degrees == 0) return {rules::assumed_dispersion};
    return {std::max(1.0, chi_squared / degrees), degrees};
}

double moderated_dispersion(std::span<const Decline> lines) {
    double chi_squared = rules::usual_dispersion * rules::usual_weight;
    double degrees = rules::usual_weight;
    for (const Decline& line : lines) {
        chi_squared += line.chi_squared;
        degrees += static_cast<double>(line.degrees_of_freedom);
    }
    return std::max(1.0, chi_squared / degrees);
}

double Dispersion::reach() const {
    return t_quantile(confidence, degrees) * std::sqrt(value);
}

namespace {

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

Interval Decline::slope_interval(const Dispersion& pooled) const {
    return around(slope, pooled.reach() * plain_slope_error);
}

double Decline::expected(std::size_t group, double day) const {
    return std::exp(intercepts[group] + slope * day);
}

Interval Decline::expected_interval(std::size_t group, double day, const Dispersion& pooled) const {
    const Interval log =
        around(intercepts[group] + slope * day, pooled.reach() * plain_error(*this, group, day));
    return {std::exp(log.low), std::exp(log.high)};
}

namespace {

/// Firth: to each count half of its leverage in the fit with `slope`.
void correct(const std::vector<Group>& as_counted, std::vector<Group>& groups, double slope) {
    double information = 0;
    for (const Group& group : groups) information += group.total * weigh(group, slope).variance;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        Group& group = groups[g];
        const Weighted weighted = weigh(group, slope);
        for (std::size_t i = 0; i < group.counts.size(); ++i) {
            Count& count = group.counts[i];
            const double share =
                count.exposure * std::exp(slope * count.day - weighted.log_sum);  // of the group
            const double off = count.day - weighted.mean;
            const double leverage = share * (1 + group.total * off * off / information);
            count.seen = as_counted[g].counts[i].seen + leverage / 2;
        }
        sum_up(group);
    }
}

}  // namespace

std::optional<Estimate> finite_slope(std::span<const std::vector<Count>> all) {
    const auto [fitted, centre, half, as_counted] = prepare(all);
    if (fitted == Fitted::too_few || fitted == Fitted::none_seen) return std::nullopt;
    std::vector<Group> groups = as_counted;
    double slope = 0;
    if (fitted == Fitted::yes) {
        slope = solve(groups);
    } else {
        constexpr int most_steps = 1000;
        for (int step = 0; step < most_steps; ++step) {
            correct(as_counted, groups, slope);
            const double next = solve(groups);
            const bool settled = std::abs(next - slope) <= 1e-12 * std::max(1.0, std::abs(next));
            slope = next;
            if (settled) break;
        }
    }
    double information = 0;
    for (const Group& group : groups) information += group.total * weigh(group, slope).variance;
    return Estimate{slope / half, 1 / information / (half * half)};
}

std::optional<FallTime> fall_time(double slope, const std::optional<Interval>& interval,
                                  double share) {
    if (!(slope < 0)) return std::nullopt;
    const double fall = std::log(share);
    FallTime result{fall / slope, {}, {}};
    if (interval) {
        result.low = fall / interval->low;
        if (interval->high < 0) result.high = fall / interval->high;
    }
    return result;
}

}  // namespace gallipot::analysis
