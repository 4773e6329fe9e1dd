#pragma once

#include <map>
#include <string>
#include <vector>

#include "tracking/analysis/history.hpp"
#include "tracking/analysis/site.hpp"
#include "tracking/analysis/verdict.hpp"

namespace gallipot::analysis {

/// What was put out of one mix and what went of it.
struct MixUse {
    std::string mix;
    Used containers;
    units::Volume put_out, gone;
    std::optional<double> cost;  ///< of what was put out, when the plan knows what a filling costs
};

/// How the whole job goes at the end of one day.
struct Report {
    Day as_of{};
    std::vector<StationReport> stations;  ///< in the order of the sites

    // Of the treated stations together:
    Trend trend;
    Efficacy efficacy;
    Verdict verdict = Verdict::not_started;
    Caution caution = Caution::none;
    std::optional<Day> result_by;            ///< when the last of them should show a result
    std::map<Verdict, std::size_t> treated;  ///< how many stations have which verdict
    std::size_t retired = 0;

    std::vector<MixUse> used;  ///< the mixes set out in containers, in the job's order
    std::map<std::string, std::size_t>
        unknown_stations;  ///< visits to stations the job does not have
    LeftOut left_out;
};

Report report(const std::vector<Site>& sites, const Histories& histories, Day as_of);

}  // namespace gallipot::analysis
