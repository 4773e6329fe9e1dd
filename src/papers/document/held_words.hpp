#pragma once

#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/verdict.hpp"

/// What is in the containers of a station, by what they were filled with last.
namespace gallipot::document {

/// Containers that hold the same.
struct Held {
    std::vector<std::string> ids;
    std::optional<analysis::Day> filled;  ///< none where nobody noted it
    plan::Contents contents;              ///< of one of them
    std::string text;                     ///< "borax 0.49 g, sugar 9.8 g, water"
    bool hazardous = false;
    bool mixed = false;    ///< older and newer bait are in it: the stronger is stated
    bool older = false;    ///< it is not what the job makes of the mix now
    bool missing = false;  ///< and nobody knows where it is
};

/// Of a station with bait in containers, those that were set out and not taken up. Empty for
/// others.
std::vector<Held> held(const job::Job& job, const plan::Plan& plan,
                       const analysis::StationReport& station, const text::Catalog& words);

}  // namespace gallipot::document
