// How often the 95 % interval of the decline covers the truth, and how often a fall is claimed, at
// the counts that people really see. Prints the table that src/tracking/analysis/README.md quotes.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <vector>

#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/trend.hpp"

using namespace gallipot::analysis;

namespace {

/// Counts as people make them: Poisson about a decline, or clumped (a gamma-distributed mean, so
/// that the variance is `scatter` times the mean).
struct World {
    double first = 0;      ///< expected at the start
    double half_days = 0;  ///< infinity: no change
    double scatter = 1;
    std::vector<double> days;
};

Counts simulate(const World& world, std::mt19937_64& random) {
    Counts counts;
    counts.groups.resize(1);
    for (const double day : world.days) {
        double mean = world.first * std::exp2(-day / world.half_days);
        if (world.scatter > 1)
            mean = std::gamma_distribution<double>(mean / (world.scatter - 1),
                                                   world.scatter - 1)(random);
        const double seen =
            mean > 0 ? static_cast<double>(std::poisson_distribution<long>(mean)(random)) : 0;
        counts.groups[0].push_back({day, seen});
        counts.totals.push_back({days_after(LocalTime{}, day), seen});
    }
    return counts;
}

void print_row(const World& world, int runs, std::mt19937_64& random) {
    const double truth = -std::log(2) / world.half_days;
    int intervals = 0, as_r = 0, cautious = 0, fall = 0, rise = 0;
    for (int i = 0; i < runs; ++i) {
        const Trend trend = trend_of(simulate(world, random));
        fall += trend.falls ? 1 : 0;
        rise += trend.rises ? 1 : 0;
        const auto exact = trend.decline.slope_interval();
        if (!exact) continue;
        ++intervals;
        const auto wide = *trend.decline.cautious_slope_interval();
        as_r += exact->low <= truth && truth <= exact->high ? 1 : 0;
        cautious += wide.low <= truth && truth <= wide.high ? 1 : 0;
    }
    const auto percent = [](int part, int whole) {
        return whole == 0 ? NAN : 100.0 * part / whole;
    };
    std::printf("%8.0f %8.0f %7zu %9.0f %12.1f %12.1f %12.1f %8.1f %8.1f\n", world.first,
                world.half_days, world.days.size(), world.scatter, percent(intervals, runs),
                percent(as_r, intervals), percent(cautious, intervals), percent(fall, runs),
                percent(rise, runs));
}

}  // namespace

int main(int argc, char** argv) {
    const int runs = argc > 1 ? std::atoi(argv[1]) : 10'000;
    std::mt19937_64 random(20270302);
    std::printf("%8s %8s %7s %9s %12s %12s %12s %8s %8s\n", "first", "half in", "counts", "scatter",
                "interval, %", "R covers, %", "ours cov., %", "fall, %", "rise, %");
    const std::vector<std::vector<double>> visits{
        {0, 10}, {0, 4, 10}, {0, 1, 4, 10}, {0, 1, 4, 10, 21}, {0, 1.0 / 24, 1, 4, 10, 21, 30}};
    for (const double scatter : {1.0, 3.0})
        for (const double half_days : {5.0, 12.0, HUGE_VAL})
            for (const double first : {5.0, 20.0, 50.0})
                for (const auto& days : visits)
                    print_row({first, half_days, scatter, days}, runs, random);
}
