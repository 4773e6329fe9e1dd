#pragma once

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "made.hpp"

/// Whole jobs made up at random, of which the truth is known.
namespace gallipot::analysis::made {

/// A job as it really is.
struct World {
    const char* name = "";
    int treated = 5, controls = 3;
    double scatter = 1;       ///< variance of a count over its mean
    double first = 20;        ///< mean at the start; places differ by a factor of some two
    double treated_half = 0;  ///< days; 0: no change
    double control_half = 0;
    double slopes_differ = 0;  ///< standard deviation of the slopes of places, log a day
    double drawn = 1;          ///< so many times as many at the bait for its first three days
    double season = 0;         ///< half the log of summer over winter, both arms alike
    std::vector<double> days{-1, 4, 8, 14, 21};
};

inline int seen_of(double mean, double scatter, std::mt19937_64& random) {
    if (!(mean > 1e-9)) return 0;
    if (scatter > 1)
        mean = std::gamma_distribution<double>(mean / (scatter - 1), scatter - 1)(random);
    return mean > 0 ? static_cast<int>(std::poisson_distribution<long>(mean)(random)) : 0;
}

/// One such job, reported on the day after the last count.
inline Report report_on(const World& world, std::mt19937_64& random) {
    std::vector<Site> sites;
    std::vector<Visit> visits;
    const double phase = std::uniform_real_distribution<double>(0, 6.283)(random);
    for (int k = 0; k < world.treated + world.controls; ++k) {
        const bool is_control = k >= world.treated;
        const std::string id = (is_control ? "C" : "K") + std::to_string(k);
        sites.push_back(is_control ? control(id) : site(id));
        sites.back().pest = "ants";
        if (!is_control) sites.back().window = Window{3, 14};
        const double half = is_control ? world.control_half : world.treated_half;
        const double slope = (half > 0 ? -std::log(2) / half : 0) +
                             world.slopes_differ * std::normal_distribution<double>()(random);
        const double first =
            world.first * std::exp(0.7 * std::normal_distribution<double>()(random));
        for (const double day : world.days) {
            const double more = !is_control && day > 0 && day <= 3 ? world.drawn : 1;
            const double mean = more * first *
                                std::exp(slope * (day - world.days.front()) +
                                         world.season * std::sin(phase + day * 6.283 / 60));
            visits.push_back(Made(day, id).saw(seen_of(mean, world.scatter, random)));
        }
    }
    compare_controls(sites);
    return report_on(sites, visits, 22);
}

}  // namespace gallipot::analysis::made
