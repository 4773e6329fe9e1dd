#pragma once

#include <optional>
#include <string>

#include "domain/mixing/evaporation.hpp"
#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"

/// How strong an open bait has become, by the level that was read.
namespace gallipot::document {

struct BaitStrength {
    mixing::LevelEstimate reading;  ///< of one container
    analysis::Day on{};             ///< when its level was read
};

/// Of the container that has become strongest. None where nothing dries, and where nobody knows
/// what it was filled with last.
std::optional<BaitStrength> bait_strength(const plan::Plan& plan,
                                          const analysis::StationReport& station);

/// "By the level read on 1 April the bait is at about 0.7 % boric acid (0.64 to 1.2 %). About
/// 2 mL of water (0 mL to 3 mL) brings one container back to how it was mixed."; empty where there
/// is none.
std::string bait_strength_sentence(const plan::Plan& plan, const analysis::StationReport& station,
                                   analysis::Day as_of, const text::Catalog& words);

}  // namespace gallipot::document
