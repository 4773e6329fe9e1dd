#pragma once

#include <map>
#include <string>
#include <vector>

#include "units/quantity.hpp"

namespace gallipot::safety {

enum class RuleSet { clp_like, us_household };
enum class SignalWord { none, caution, warning, danger };
enum class Pictogram { health_hazard /* GHS08 */, exclamation /* GHS07 */ };

/// What a composition calls for on its label. Codes are those of the published standard; their
/// texts stand in the language catalogs under "hazard.<code>" and "precaution.<code>".
struct Hazard {
    RuleSet rules = RuleSet::clp_like;
    SignalWord signal_word = SignalWord::none;
    std::vector<Pictogram> pictograms;
    std::vector<std::string> classes;         ///< "Repr. 1B"
    std::vector<std::string> hazard_codes;    ///< "H360FD"
    std::vector<std::string> precaution_codes;  ///< in the order they are printed
    std::vector<std::string> unknown;         ///< ingredients nobody knows the hazard of
    std::string basis;                        ///< catalog key of the sentence that says on what it rests
};

}  // namespace gallipot::safety
