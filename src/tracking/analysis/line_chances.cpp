#include "tracking/analysis/line_chances.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

/// Chance of pests at one end of the time alone, either way, had nothing changed: each falls to
/// that end with its part of the exposure.
double one_end_chance(const Groups& groups, double dispersion) {
    double log_chance = 0;
    for (const auto& group : groups) {
        double seen = 0, there = 0, all = 0;
        for (const Count& c : group) {
            seen += c.seen;
            all += c.exposure;
        }
        if (seen == 0) continue;
        for (const Count& c : group) {
            const bool at_end = std::ranges::any_of(
                group, [&](const Count& other) { return other.day == c.day && other.seen > 0; });
            if (at_end) there += c.exposure;
        }
        log_chance += seen / dispersion * std::log(there / all);
    }
    return std::min(1.0, 2 * std::exp(log_chance));
}

/// Of a line that falls to none at once, or rises from none.
bool all_at_first(const Groups& groups) {
    for (const auto& group : groups) {
        double first = std::numeric_limits<double>::infinity(), seen = first;
        for (const Count& c : group) {
            first = std::min(first, c.day);
            if (c.seen > 0) seen = std::min(seen, c.day);
        }
        if (std::isfinite(seen)) return seen == first;
    }
    return false;
}

}  // namespace

std::optional<double> change_chance(const Decline& line, const Groups& groups,
                                    const Dispersion& dispersion) {
    if (line.fitted == Fitted::yes)
        return t_chance(line.slope / (line.plain_slope_error * std::sqrt(dispersion.value)),
                        dispersion.degrees);
    if (line.fitted == Fitted::at_one_end) return one_end_chance(groups, dispersion.value);
    return std::nullopt;
}

bool falls_along(const Decline& line, const Groups& groups) {
    return line.fitted == Fitted::yes ? line.slope < 0 : all_at_first(groups);
}

double span_days(const Groups& groups) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const auto& group : groups)
        for (const Count& c : group) {
            low = std::min(low, c.day);
            high = std::max(high, c.day);
        }
    return high > low ? high - low : 0;
}

double half_fall_chance(double slope, double error, double degrees, double days) {
    const double t = (slope - std::log(rules::halved) / days) / error;
    return t > 0 ? t_chance(t, degrees) / 2 : 1;
}

}  // namespace gallipot::analysis
