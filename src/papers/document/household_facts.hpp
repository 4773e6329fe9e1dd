#pragma once

#include <optional>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"

namespace gallipot::document {

/// What the building has, taken together: what its household sheet says of all stations.
struct HouseholdFacts {
    std::vector<const plan::Mix*> mixes;  ///< those that are set out or sprayed, in the job's order
    bool liquid = false, dry = false, paste = false, sprayed = false;
    std::vector<std::string> bait_against, spray_against;  ///< as the job writes them, each once
    bool poison = false;
    bool peanut = false;
    bool ants = false;
    std::optional<job::Date> bait_until;  ///< the last replace-by; none if one bait has none
    std::optional<job::Date> no_sprays_until;

    [[nodiscard]] bool bait() const { return liquid || dry || paste; }
};

/// Of the whole job. The plan must be the job's.
HouseholdFacts household_facts(const job::Job& job, const plan::Plan& plan);

}  // namespace gallipot::document
