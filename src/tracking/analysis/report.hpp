#pragma once

#include <map>
#include <optional>
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

/// How the stations against one pest do together. Pests are never added together.
struct PestReport {
    std::string pest;  ///< by the name in the table of pests, else as written
    bool timber = false;
    Trend trend;
    Efficacy efficacy;
    Verdict verdict = Verdict::not_started;
    Caution caution = Caution::none;
    std::map<Verdict, std::size_t> stations;  ///< how many have which verdict
    std::optional<Day> result_by;             ///< when the last of them should show a result
};

/// How the building does: as its worst pest.
struct Building {
    Verdict verdict = Verdict::not_started;
    /// Stations that a licensed professional should see, the worst first.
    std::vector<std::size_t> call_professional;
};

/// How the whole job goes at the end of one day.
struct Report {
    Day as_of{};
    std::vector<StationReport> stations;  ///< in the order of the sites
    std::vector<PestReport> pests;        ///< in the order of their first stations
    Building building;
    std::optional<Day> result_by;  ///< when the last station should show a result
    std::size_t retired = 0;

    std::vector<MixUse> used;  ///< the mixes set out in containers, in the job's order
    std::map<std::string, std::size_t>
        unknown_stations;  ///< visits to stations the job does not have
    LeftOut left_out;
};

/// How bad a verdict is, from 0 (not worth an eye) up.
int badness(Verdict verdict);
/// The treated stations that still stand, the worst first: by verdict, then by what was seen last.
std::vector<std::size_t> worst_first(const Report& report);

Report report(const std::vector<Site>& sites, const Histories& histories, Day as_of);

}  // namespace gallipot::analysis
