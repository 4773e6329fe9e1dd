#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/units/quantity.hpp"

namespace gallipot::safety {

enum class RuleSet { clp_like, us_household };
/// From least to most severe.
enum class SignalWord { none, caution, warning, danger };
enum class Pictogram { health_hazard /* GHS08 */, exclamation /* GHS07 */ };

/// What a composition calls for on its label. Codes are those of the published standard; their
/// texts stand in the language catalogs under "hazard.<code>" and "precaution.<code>". A code may
/// carry, after a hyphen, which words of the standard's choice list are meant: "P280-eyes"; and
/// where the standard has no codes, they are ours: "us_children".
struct Hazard {
    RuleSet rules = RuleSet::clp_like;
    SignalWord signal_word = SignalWord::none;
    std::vector<Pictogram> pictograms;
    std::vector<std::string> classes;           ///< "Repr. 1B"
    std::vector<std::string> hazard_codes;      ///< "H360FD"
    std::vector<std::string> precaution_codes;  ///< in the order they are printed
    std::vector<std::string> unknown;           ///< ingredients nobody knows the hazard of
    std::string basis;               ///< catalog key of the sentence that says on what it rests
    std::vector<std::string> notes;  ///< catalog keys of what else it rests on: "basis.note_11"

    /// The figures that decided, by mass, at the upper end of what was measured.
    double boron_compounds = 0;
    double eye_irritants = 0;
    /// The part of the mix's water that is gone in these figures, where it is the drying that
    /// decided: 0 as mixed, 1 when it is dry.
    double water_gone = 0;
    /// Estimated for the mixture from its boron; none when there is no boron.
    std::optional<double> oral_ld50_mg_per_kg;

    bool operator==(const Hazard&) const = default;
    /// Has a signal word, or nobody knows.
    [[nodiscard]] bool hazardous() const {
        return signal_word != SignalWord::none || !unknown.empty();
    }
};

}  // namespace gallipot::safety
