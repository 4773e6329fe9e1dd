#pragma once

#include <string_view>

#include "domain/reference/cited.hpp"
#include "domain/safety/hazard.hpp"

namespace gallipot::safety {

/// Which rules a region's labels follow, and why.
struct RuleChoice {
    RuleSet rules = RuleSet::clp_like;
    std::string_view why;  ///< for developers and `plan`, English
    reference::Provenance provenance = reference::Provenance::found;
};

/// By ISO 3166-1 alpha-2. The United States and its territories follow US household rules; everyone
/// else, and a region that is not known, the EU's: of the two they are the stricter, and most of
/// the world builds on the same UN system.
RuleChoice rules_for(std::string_view region);

}  // namespace gallipot::safety
