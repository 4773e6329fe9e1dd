#pragma once

#include <optional>
#include <vector>

#include "domain/plan/mix_planner.hpp"

namespace gallipot::plan {

struct Shopping {
    std::vector<Purchase> purchases;
    std::optional<Cost> cost;  ///< none when nothing has a price
};

/// What all mixes take together, as measured and in every batch, by ingredient in the order of the
/// job. Water from the tap is not bought. What must be bought is paid in full: packs times price.
Shopping shop(const job::Job& job, const std::vector<MixCalculation>& calculation, int containers);

}  // namespace gallipot::plan
