#include "domain/safety/classify.hpp"

#include <algorithm>
#include <iterator>
#include <stdexcept>

#include "domain/reference/substances.hpp"

namespace gallipot::safety {

namespace {

// Disodium tetraborates: Eye Irrit. 2 by their registrants (dossier 100.249.429, section 7.4.1,
// found; SDSs from 2016 on add H319 and GHS07, found). Boric acid: "no classification is indicated"
// (dossier 33597, section 7.4.1, found). Octaborate: no such classification recalled (memory).
constexpr std::string_view tetraborates[] = {"borax", "borax pentahydrate"};

bool tetraborate(const reference::Substance& substance) {
    return std::ranges::find(tetraborates, substance.name) != std::end(tetraborates);
}

// At or above the limit, and not lost to the last bit of a sum: 0.1 % and 0.2 % are 0.3 %.
bool reaches(double share, double limit) {
    return share >= limit * (1 - 1e-9);
}

void check(const Component& component) {
    const bool good = component.mass_fraction >= 0 && component.mass_fraction_upper <= 1 &&
                      component.mass_fraction_upper >= component.mass_fraction;
    if (!good) {
        throw std::invalid_argument("share of '" + component.name + "' is not within 0 and 1");
    }
}

void apply_clp(Hazard& hazard) {
    hazard.basis = "basis.clp_like";
    if (!reaches(hazard.boron_compounds, limits::reproductive_1b)) return;

    hazard.classes.emplace_back("Repr. 1B");
    hazard.hazard_codes.emplace_back("H360FD");
    hazard.pictograms.push_back(Pictogram::health_hazard);
    hazard.signal_word = SignalWord::danger;
    hazard.notes.emplace_back("basis.note_11");
    // General: P102. Table 3.7.3: P201, P202, P280; P308+P313; P405; P501 (CLP from memory; the
    // same in GOST 31340-2022, table 21, found). Left out: P202, which says P201 again; P103
    // likewise; P101, because the first-aid line already asks to read the label out (Article 28:
    // what is redundant goes, and six are enough). P270 and P301+P310 belong to acute toxicity
    // (Table 3.1.3, found, reachlex.eu), which this is not: what to do when it was swallowed stands
    // under first aid.
    hazard.precaution_codes = {"P102", "P201", "P280", "P308+P313", "P405", "P501"};

    if (!reaches(hazard.tetraborates, limits::eye_irritation_2)) return;
    hazard.classes.emplace_back("Eye Irrit. 2");
    hazard.hazard_codes.emplace_back("H319");
    hazard.pictograms.push_back(Pictogram::exclamation);
    hazard.notes.emplace_back("basis.eye_self_classified");
    // Table 3.3.5: P264, P280; P305+P351+P338, P337+P313 (found, reachonline.eu). P337+P313 left
    // out: P308+P313 sends to the doctor already. Eight in all, for two classes.
    hazard.precaution_codes = {"P102",           "P201",      "P264", "P280-eyes",
                               "P305+P351+P338", "P308+P313", "P405", "P501"};
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
        const reference::Substance* substance =
            component.substance.empty() ? nullptr : reference::find_substance(component.substance);
        if (substance == nullptr) {
            if (!component.known) hazard.unknown.push_back(component.name);
            continue;
        }
        // All else in the table is food, water, baking soda or glycerol: none is classified.
        if (!substance->borate()) continue;
        hazard.boron_compounds += component.mass_fraction_upper;
        boron += component.mass_fraction_upper * substance->boron_fraction();
        if (tetraborate(*substance)) hazard.tetraborates += component.mass_fraction_upper;
    }
    // Upper ends are each its own worst case: together they may come to more than the whole.
    boron /= std::max(1.0, hazard.boron_compounds);
    hazard.boron_compounds = std::min(1.0, hazard.boron_compounds);
    hazard.tetraborates = std::min(1.0, hazard.tetraborates);
    if (boron > 0) hazard.oral_ld50_mg_per_kg = limits::oral_ld50_mg_boron_per_kg / boron;
    if (rules == RuleSet::clp_like) {
        apply_clp(hazard);
    } else {
        apply_us(hazard);
    }
    return hazard;
}

}  // namespace gallipot::safety
