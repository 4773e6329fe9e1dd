#include "domain/safety/classify.hpp"

#include <algorithm>
#include <stdexcept>

namespace gallipot::safety {

namespace {

using reference::HazardClass;

// At or above the limit, and not lost to the last bit of a sum: 0.1 % and 0.2 % are 0.3 %.
bool reaches(double share, double limit) {
    return share >= limit * (1 - 1e-9);
}

void add_once(std::vector<std::string>& names, const std::string& name) {
    if (std::ranges::find(names, name) == names.end()) names.push_back(name);
}

/// Whether the table of substances has what the rules need. The US categories of eye irritants that
/// hold no boron are not in it.
bool is_stated(const reference::Substance* substance, RuleSet rules) {
    if (substance == nullptr || !substance->hazard.known()) return false;
    return rules == RuleSet::clp_like || substance->borate() ||
           !substance->hazard.has(HazardClass::eye_irritation_2);
}

void check(const Component& component) {
    const bool good = component.mass_fraction >= 0 && component.mass_fraction_upper <= 1 &&
                      component.mass_fraction_upper >= component.mass_fraction;
    if (!good) {
        throw std::invalid_argument("share of '" + component.name + "' is not within 0 and 1");
    }
}

// General: P102. Table 3.7.3: P201, P202, P280; P308+P313; P405; P501 (CLP from memory; the same in
// GOST 31340-2022, table 21, found). Left out: P202, which says P201 again; P103 likewise; P101,
// because the first-aid line already asks to read the label out (Article 28: what is redundant
// goes, and six are enough). P270 and P301+P310 belong to acute toxicity (Table 3.1.3, found,
// reachlex.eu), which this is not: what to do when it was swallowed stands under first aid.
//
// Table 3.3.5: P264, P280; P305+P351+P338, P337+P313 (found, reachonline.eu). Beside P308+P313,
// which sends to the doctor already, P337+P313 is left out. Eight in all, for two classes.
std::vector<std::string> clp_precautions(bool reproductive, bool eyes) {
    if (!reproductive) return {"P102", "P264", "P280-eyes", "P305+P351+P338", "P337+P313"};
    if (!eyes) return {"P102", "P201", "P280", "P308+P313", "P405", "P501"};
    return {"P102", "P201", "P264", "P280-eyes", "P305+P351+P338", "P308+P313", "P405", "P501"};
}

void apply_clp(Hazard& hazard) {
    hazard.basis = "basis.clp_like";
    const bool reproductive = reaches(hazard.boron_compounds, limits::reproductive_1b);
    const bool eyes = reaches(hazard.eye_irritants, limits::eye_irritation_2);
    if (!reproductive && !eyes) return;

    hazard.signal_word = reproductive ? SignalWord::danger : SignalWord::warning;
    if (reproductive) {
        hazard.classes.emplace_back("Repr. 1B");
        hazard.hazard_codes.emplace_back("H360FD");
        hazard.pictograms.push_back(Pictogram::health_hazard);
        hazard.notes.emplace_back("basis.note_11");
    }
    if (eyes) {
        hazard.classes.emplace_back("Eye Irrit. 2");
        hazard.hazard_codes.emplace_back("H319");
        hazard.pictograms.push_back(Pictogram::exclamation);
        // The only irritants that are classified by their makers alone are tetraborates.
        if (reproductive) hazard.notes.emplace_back("basis.eye_self_classified");
    }
    hazard.precaution_codes = clp_precautions(reproductive, eyes);
}

void apply_us(Hazard& hazard) {
    hazard.basis = "basis.us_household";
    if (!hazard.oral_ld50_mg_per_kg) return;

    const bool category_iii = *hazard.oral_ld50_mg_per_kg <= limits::us_category_iii_up_to;
    hazard.classes.emplace_back(category_iii ? "oral III" : "oral IV");
    hazard.signal_word = SignalWord::caution;
    hazard.hazard_codes = {"us_swallowed"};
    hazard.precaution_codes = {"us_children", "us_contact"};
    if (reaches(hazard.boron_compounds, limits::reproductive_1b)) {
        hazard.notes.emplace_back("basis.us_differs");
    }
}

}  // namespace

Hazard classify(const std::vector<Component>& components, RuleSet rules) {
    Hazard hazard;
    hazard.rules = rules;
    double boron = 0;
    for (const Component& component : components) {
        check(component);
        const reference::Substance* substance = component.substance;
        if (!component.known && !is_stated(substance, rules)) {
            add_once(hazard.unknown, component.name);
        }
        if (substance == nullptr) continue;
        const double share = component.mass_fraction_upper;
        if (substance->hazard.has(HazardClass::reproductive_1b)) hazard.boron_compounds += share;
        if (substance->hazard.has(HazardClass::eye_irritation_2)) hazard.eye_irritants += share;
        boron += share * substance->boron_fraction();
    }
    // Upper ends are each its own worst case: together they may come to more than the whole.
    boron /= std::max(1.0, hazard.boron_compounds);
    hazard.boron_compounds = std::min(1.0, hazard.boron_compounds);
    hazard.eye_irritants = std::min(1.0, hazard.eye_irritants);
    if (boron > 0) hazard.oral_ld50_mg_per_kg = limits::oral_ld50_mg_boron_per_kg / boron;
    if (rules == RuleSet::clp_like) {
        apply_clp(hazard);
    } else {
        apply_us(hazard);
    }
    return hazard;
}

}  // namespace gallipot::safety
