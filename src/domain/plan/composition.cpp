#include "domain/plan/composition.hpp"

#include <algorithm>

namespace gallipot::plan {

using units::Mass;

namespace {

bool is_water(const mixing::Part& part) {
    return part.substance->water && part.substance->water->value == 1;
}

/// Mass that is still there per mass that went in.
double kept(const mixing::Part& part, double water_gone) {
    return is_water(part) ? 1 - water_gone : 1;
}

/// What its parts leave of the whole: nobody knows what it is.
double unknown_share(const mixing::Component& component) {
    double rest = 1;
    for (const mixing::Part& part : component.parts) rest -= part.share;
    return rest > 1e-9 ? rest : 0;
}

double kept(const mixing::Component& component, double water_gone) {
    double sum = unknown_share(component);
    for (const mixing::Part& part : component.parts) sum += part.share * kept(part, water_gone);
    return sum;
}

Mass total_kept(const MixCalculation& calculation, const std::vector<Mass>& masses,
                double water_gone) {
    Mass sum;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        sum += masses[i] * kept(calculation.recipe.components[i], water_gone);
    }
    return sum;
}

/// Adds an ingredient of which `share` of the whole went in, `upper` at most.
void add(std::vector<safety::Component>& out, const mixing::Component& component, double share,
         double upper, double water_gone) {
    for (const mixing::Part& part : component.parts) {
        const double of_it = part.share * kept(part, water_gone);
        // What is all there is may come out above 1 by the last bit.
        out.push_back({component.name, part.substance, std::min(1.0, share * of_it),
                       std::min(1.0, upper * of_it), component.vouched});
    }
    if (const double rest = unknown_share(component); rest > 0) {
        out.push_back({component.name, nullptr, share * rest, upper * rest, component.vouched});
    }
}

}  // namespace

std::vector<safety::Component> composition(const MixCalculation& calculation, double water_gone) {
    std::vector<safety::Component> out;
    const auto& masses = calculation.chosen.masses;
    const Mass whole = total_kept(calculation, masses, water_gone);
    if (whole <= Mass{}) return out;  // nothing but water, and that is gone
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const std::vector<Mass> worst = calculation.at_worst(i);
        const double share = masses[i] / whole;
        const double upper = std::max(share, worst[i] / total_kept(calculation, worst, water_gone));
        add(out, calculation.recipe.components[i], share, upper, water_gone);
    }
    return out;
}

std::vector<safety::Component> composition(const mixing::Component& supply) {
    std::vector<safety::Component> out;
    add(out, supply, 1, 1, 0);
    return out;
}

units::Mass plain_water_in(const MixCalculation& calculation, const Contents& contents) {
    Mass water;
    for (std::size_t i = 0; i < calculation.recipe.components.size(); ++i) {
        for (const mixing::Part& part : calculation.recipe.components[i].parts) {
            if (is_water(part)) water += contents.ingredients[i].second * part.share;
        }
    }
    return water;
}

safety::Hazard hazard_of(const MixCalculation& calculation, double water_gone,
                         safety::RuleSet rules) {
    safety::Hazard mixed = safety::classify(composition(calculation, 0), rules);
    if (water_gone <= 0) return mixed;
    safety::Hazard dried = safety::classify(composition(calculation, water_gone), rules);
    if (dried.classes == mixed.classes && dried.notes == mixed.notes) return mixed;
    dried.water_gone = water_gone;
    if (dried.hazard_codes != mixed.hazard_codes) dried.notes.emplace_back("basis.when_dried");
    return dried;
}

}  // namespace gallipot::plan
