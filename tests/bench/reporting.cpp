// How long a report takes over a job with a great many stations and visits, and how much memory.
//   bench_reporting [stations] [visits a station]

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <random>
#include <string>
#include <sys/resource.h>
#include <vector>

#include "tracking/analysis/report.hpp"
#include "tracking/analysis/rounds.hpp"

using namespace gallipot;
using namespace gallipot::analysis;

namespace {

/// MiB of the most that was held at once.
double maximum_memory() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024;
}

/// Of the processor: others may be at work on the same machine.
class Stopwatch {
  public:
    double seconds() const { return static_cast<double>(std::clock() - from_) / CLOCKS_PER_SEC; }

  private:
    std::clock_t from_ = std::clock();
};

}  // namespace

int main(int argc, char** argv) {
    const std::size_t stations = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 10'000;
    const int visits = argc > 2 ? std::atoi(argv[2]) : 100;
    const Day day_0 = Day(std::chrono::year(2027) / 3 / 2);

    std::vector<std::string> ids;
    std::vector<Site> sites;
    for (std::size_t i = 0; i < stations; ++i) {
        Site site;
        site.id = "S" + std::to_string(i);
        site.control = i % 1000 == 999;
        site.containers = site.control ? 0 : 1;
        site.placed = LocalTime(day_0);
        for (const int days : {1, 4, 10, 21, 30})
            site.due.push_back(day_0 + std::chrono::days(days));
        site.window = Window{7, 21};
        sites.push_back(site);
        ids.push_back(site.id);
    }

    // In order of time, as the log hands them over; made a round at a time, so that little more
    // than what the analysis keeps is held.
    std::mt19937_64 random(1);
    const double before = maximum_memory();
    const Stopwatch reading;
    double making = 0;
    Histories histories(ids);
    std::vector<visit::Visit> round(stations);  // one to every station
    for (int v = 0; v < visits; ++v) {
        const Stopwatch make;
        for (std::size_t i = 0; i < stations; ++i) {
            visit::Visit& visit = round[i];
            const double days = v * 0.5;
            visit.station = ids[i];
            visit.time = days_after(day_0, days + static_cast<double>(i) / 1e6);
            const double mean =
                (10 + static_cast<double>(i % 40)) *
                (sites[i].control ? 1 : std::exp2(-days / (4.0 + static_cast<double>(i % 9))));
            visit.seen = std::poisson_distribution<int>(mean)(random);
            visit.level_percent = std::max(0, 100 - (v % 40) * 2);
            visit.did = {};
            if (v % 40 == 39) visit.did.add(visit::Did::refilled);
        }
        making += make.seconds();
        for (const visit::Visit& visit : round) histories.add(visit);
    }
    const double read = reading.seconds() - making;
    const Stopwatch reporting;
    const Report result = report(sites, histories, day_0 + std::chrono::days(visits));
    const double reported = reporting.seconds();
    std::vector<std::size_t> walk(stations);
    for (std::size_t i = 0; i < stations; ++i) walk[i] = i;
    const auto walks = rounds(result, walk);
    std::printf(
        "%zu visits at %zu stations: %.2f s of the processor to take in, %.2f s to report, %.2f s "
        "for "
        "%zu walks; %.0f MiB at most, %.0f MiB of them before\n",
        static_cast<std::size_t>(visits) * stations, stations, read, reported,
        reporting.seconds() - reported, walks.size(), maximum_memory(), before);
}
