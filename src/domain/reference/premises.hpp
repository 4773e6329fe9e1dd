#pragma once

#include <string_view>

#include "domain/reference/cited.hpp"

namespace gallipot::reference {

/// What kind of building asks for a licence.
struct PremisesRule {
    std::string_view premises;   ///< as a job names it: "food business"
    std::string_view called;     ///< in a sentence: "place of childcare"
    bool licensed_only = false;  ///< ours: here nobody without a licence is to work, wherever it is
    std::string_view text;       ///< what the source says, for messages
    std::string_view source;     ///< and the day it holds for
    Provenance provenance = Provenance::found;
};

/// Null for a building of which nothing is known to ask for more than elsewhere.
const PremisesRule* find_premises_rule(std::string_view premises);

}  // namespace gallipot::reference
