#include "tracking/analysis/power.hpp"

#include <algorithm>
#include <cmath>

#include "tracking/analysis/quantile.hpp"

namespace gallipot::analysis {

namespace {

/// Variance of the slope of a Poisson line whose numbers come down to `share` by the last day.
double slope_variance(const std::vector<double>& days, double first, double share) {
    const double span = days.back() - days.front();
    double weights = 0, moment = 0, squares = 0;
    for (const double day : days) {
        const double expected = first * std::pow(share, (day - days.front()) / span);
        weights += expected;
        moment += expected * day;
        squares += expected * day * day;
    }
    return 1 / (squares - moment * moment / weights);
}

}  // namespace

std::vector<Design> designs_of(const std::vector<Site>& sites) {
    std::vector<Design> designs;
    for (const Site& site : sites) {
        if (site.control || site.timber) continue;
        auto design = std::ranges::find(designs, site.pest, &Design::pest);
        if (design == designs.end()) {
            design = designs.insert(designs.end(), Design());
            design->pest = site.pest;
            design->days.push_back(0);
            for (const LocalTime due : site.due)
                design->days.push_back(days_between(site.due_from, due));
            design->controls = static_cast<std::size_t>(std::ranges::count_if(
                sites, [&](const Site& other) { return other.compares_with(site.pest); }));
        }
        ++design->treated;
    }
    return designs;
}

double power(const Design& design, double share, const Assumed& assumed) {
    const auto treated = static_cast<double>(design.treated);
    const auto controls = static_cast<double>(design.controls);
    const double degrees = treated + controls - 2;
    if (design.controls == 0 || design.treated == 0 || degrees <= 0 || design.days.size() < 2 ||
        design.days.back() <= design.days.front())
        return 0;
    const double between = assumed.slopes_differ * assumed.slopes_differ;
    const auto variance = [&](double left, double places) {
        return (assumed.dispersion * slope_variance(design.days, assumed.first, left) + between) /
               places;
    };
    const double error = std::sqrt(variance(share, treated) + variance(1, controls));
    const double slope = std::log(share) / (design.days.back() - design.days.front());
    return t_power(-slope / error, degrees, 1 - rules::false_claims);
}

std::optional<std::size_t> controls_wanted(Design design, double share, const Assumed& assumed) {
    constexpr std::size_t most = 10;
    constexpr double often = 0.8;
    for (design.controls = 1; design.controls <= most; ++design.controls)
        if (power(design, share, assumed) >= often) return design.controls;
    return std::nullopt;
}

}  // namespace gallipot::analysis
