// How often the report claims what is not so, and how often it finds what is: whole jobs are made
// up and reported on, some hundred times a row. Prints the table that
// src/tracking/analysis/README.md quotes.

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "../tracking/analysis/world.hpp"
#include "tracking/analysis/report.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

/// What was claimed before there was a model: first and last counts alone, taken as Poisson.
bool first_and_last_claim(const Report& report) {
    double part = 0, ratio = 1;
    double sums[2][2] = {};
    for (const StationReport& s : report.stations) {
        if (s.trend.counts < 2) return false;
        sums[s.control ? 1 : 0][0] += s.trend.first.seen;
        sums[s.control ? 1 : 0][1] += s.trend.last.seen;
    }
    for (int arm = 0; arm < 2; ++arm)
        for (int round = 0; round < 2; ++round) part += 1 / (sums[arm][round] + 0.5);
    ratio = (sums[0][1] + 0.5) * (sums[1][0] + 0.5) / ((sums[0][0] + 0.5) * (sums[1][1] + 0.5));
    return ratio * std::exp(1.96 * std::sqrt(part)) < 1;
}

struct Tally {
    int runs = 0, stations = 0;
    int beyond = 0, as_before = 0, covered = 0, intervals = 0;
    int station_beyond = 0, any_beyond = 0;
    int falls = 0, rises = 0, station_falls = 0, station_rises = 0;
    int rebound = 0, stalled = 0, gone = 0;
};

Tally study(const World& world, int runs, std::mt19937_64& random) {
    Tally tally;
    for (int run = 0; run < runs; ++run) {
        const Report report = report_on(world, random);
        const PestReport& pest = report.pests.front();
        ++tally.runs;
        tally.beyond += pest.efficacy.beyond_control;
        tally.as_before += world.controls > 0 && first_and_last_claim(report);
        tally.falls += pest.trend.falls;
        tally.rises += pest.trend.rises;
        if (pest.efficacy.interval) {
            const double lambda = (world.treated_half > 0 ? -std::log(2) / world.treated_half : 0) -
                                  (world.control_half > 0 ? -std::log(2) / world.control_half : 0);
            const double truth =
                (1 - std::exp(lambda * (world.days.back() - world.days.front()))) * 100;
            ++tally.intervals;
            tally.covered +=
                pest.efficacy.interval->low <= truth && truth <= pest.efficacy.interval->high;
        }
        bool any = false;
        for (const StationReport& s : report.stations) {
            if (s.control) continue;
            ++tally.stations;
            tally.station_beyond += s.efficacy.beyond_control;
            any = any || s.efficacy.beyond_control;
            tally.station_falls += s.trend.falls;
            tally.station_rises += s.trend.rises;
            tally.rebound += s.has(Flag::rebound);
            tally.stalled += s.has(Flag::stalled);
            tally.gone += s.verdict == Verdict::gone;
        }
        tally.any_beyond += any;
    }
    return tally;
}

void print_row(const World& world, int runs, std::mt19937_64& random) {
    const Tally t = study(world, runs, random);
    const auto percent = [](int part, int whole) { return whole ? 100.0 * part / whole : NAN; };
    std::printf(
        "%-22s %2d+%d %4.0f %6.1f | %6.1f %6.1f %6.1f | %6.1f %6.1f | %5.1f %5.1f %5.1f %5.1f | "
        "%5.1f %5.1f %5.1f\n",
        world.name, world.treated, world.controls, world.scatter, world.first,
        percent(t.beyond, t.runs), percent(t.as_before, t.runs), percent(t.covered, t.intervals),
        percent(t.station_beyond, t.stations), percent(t.any_beyond, t.runs),
        percent(t.falls, t.runs), percent(t.rises, t.runs), percent(t.station_falls, t.stations),
        percent(t.station_rises, t.stations), percent(t.rebound, t.stations),
        percent(t.stalled, t.stations), percent(t.gone, t.stations));
}

}  // namespace

int main(int argc, char** argv) {
    const int runs = argc > 1 ? std::atoi(argv[1]) : 400;
    std::mt19937_64 random(20270302);
    std::printf("%-22s %4s %4s %6s | %6s %6s %6s | %6s %6s | %5s %5s %5s %5s | %5s %5s %5s\n",
                "world", "t+c", "var", "first", "beyond", "before", "cover", "st.bey", "any",
                "falls", "rises", "st.f", "st.r", "rebnd", "stall", "gone");
    for (const double scatter : {1.0, 3.0, 6.0}) {
        const auto row = [&](World world) {
            world.scatter = scatter;
            print_row(world, runs, random);
        };
        for (const auto& [treated, controls] :
             std::vector<std::pair<int, int>>{{1, 1}, {3, 1}, {2, 2}, {5, 3}, {12, 1}, {20, 4}}) {
            World both{"both halve", treated, controls};
            both.treated_half = both.control_half = 12;
            row(both);
            both.name = "both halve, differing";
            both.slopes_differ = 0.03;
            row(both);
            World level{"nothing happens", treated, controls};
            row(level);
            World season{"season", treated, controls};
            season.season = 0.7;
            row(season);
            World works{"bait works", treated, controls};
            works.treated_half = 6;
            row(works);
            works.name = "bait works, differing";
            works.slopes_differ = 0.03;
            row(works);
        }
        World few{"level, few", 12, 3};
        few.first = 3;
        row(few);
        few.name = "both halve, few";
        few.treated_half = few.control_half = 12;
        row(few);
        // Counted soon after setting out as well, when more come to the bait.
        World early{"nothing, soon", 12, 3};
        early.days = {-1, 1, 3, 7, 14, 21};
        row(early);
        World drawn = early;
        drawn.name = "both halve, drawn";
        drawn.treated_half = drawn.control_half = 12;
        drawn.drawn = 2.5;
        row(drawn);
        drawn.name = "bait works, drawn";
        drawn.treated_half = 6;
        drawn.control_half = 0;
        row(drawn);
        World alone{"halves, no control", 5, 0};
        alone.treated_half = 12;
        row(alone);
    }
}
