#include "mixing/component.hpp"

#include <fmt/format.h>

#include "reference/sucrose.hpp"

namespace gallipot::mixing {

using reference::Substance;
using units::Density;
using units::Range;

namespace {

const Substance& water() {
    static const Substance& it = *reference::find_substance("water");
    return it;
}

void take_after(Component& it, const Substance& substance) {
    it.substance = &substance;
    it.state = substance.state;
    it.density = substance.density.value;
    it.true_density = substance.true_density.value;
    it.parts.push_back({&substance, 1, substance.state != reference::State::powder});
}

/// Density of a solution in water from the room its solute takes up, at 20 C.
Density solution_density(const Substance& solute, units::Share share) {
    const double room = solute.sugar ? reference::sucrose_volume_in_solution(share).si()
                                     : solute.volume_in_solution->value.si();
    const double carrier = water().true_density.value.si();
    return Density::si(1 / (share.fraction * room + (1 - share.fraction) / carrier));
}

/// In water: nothing else is said of the carrier, or the substance named is the solute itself.
bool take_as_solution(Component& it, const Substance& solute, const job::Supply& supply,
                      diag::Diagnostics& out) {
    const auto share = supply.strength->share.value;
    it.substance = &solute;
    it.state = reference::State::liquid;
    it.parts = {{&solute, share.fraction, true}, {&water(), 1 - share.fraction, true}};
    if (supply.density) return true;
    const auto most = reference::solubility_at(solute, {20});
    const bool dissolved = solute.state != reference::State::powder ||
                           (most && share.fraction <= *most / (100 + *most));
    if (!dissolved || (!solute.volume_in_solution && !solute.sugar)) {
        out.error("no-density", supply.strength->share.place,
                  fmt::format("'{}' at {:.3g} % cannot be a solution in water, so its density is "
                              "not known",
                              solute.name, share.in_percent()),
                  "give its 'density', or the 'substance' that carries it");
        return false;
    }
    it.density = Range<Density>::exactly(solution_density(solute, share));
    it.true_density = it.density.usual;
    return true;
}

void take_as_mixture(Component& it, const Substance& active, const Substance& carrier,
                     units::Share share) {
    take_after(it, carrier);
    const bool liquid = carrier.state != reference::State::powder;
    it.parts = {{&active, share.fraction, liquid}, {&carrier, 1 - share.fraction, liquid}};
    if (!liquid) {
        it.true_density = Density::si(1 / (share.fraction / active.true_density.value.si() +
                                           (1 - share.fraction) / carrier.true_density.value.si()));
    }
}

/// The substance a supply is of: the one it names, else the one its own name is.
const Substance* substance_of(const job::Supply& supply) {
    return reference::find_substance(supply.substance ? **supply.substance : supply.name);
}

bool take_from_supply(Component& it, const job::Supply& supply, job::Form form,
                      diag::Diagnostics& out) {
    const Substance* substance = substance_of(supply);
    if (supply.substance && substance == nullptr) {
        out.error("unknown-substance", supply.substance->place,
                  fmt::format("substance '{}' is not known", **supply.substance),
                  "name a known substance, or leave 'substance' out and give 'density'");
        return false;
    }
    if (supply.strength) {
        const Substance* active = reference::find_substance(*supply.strength->of);
        if (active == nullptr) {
            out.error("unknown-substance", supply.strength->of.place,
                      fmt::format("substance '{}' is not known", *supply.strength->of),
                      "name a known substance in 'strength'");
            return false;
        }
        const bool carried = substance != nullptr && substance != active && substance != &water();
        if (carried) {
            take_as_mixture(it, *active, *substance, *supply.strength->share);
        } else if (!take_as_solution(it, *active, supply, out)) {
            return false;
        }
    } else if (substance != nullptr) {
        take_after(it, *substance);
    } else if (supply.density) {
        const bool powder = form == job::Form::dry || !(*supply.density)->exact();
        it.state = powder ? reference::State::powder : reference::State::liquid;
    } else {
        out.error("no-density", supply.place,
                  fmt::format("'{}' is no known substance and has no density, so neither its "
                              "volume nor its share can be worked out",
                              supply.name),
                  "give its 'density' under 'supplies', for example 1.4 g/mL");
        return false;
    }
    if (supply.density) {
        it.density = **supply.density;
        // A powder packs with air; a liquid's density is its own. For a powder nobody knows, its
        // bulk stands in for the solid: it makes the volume a little large.
        if (!it.powder() || it.substance == nullptr) it.true_density = it.density.usual;
    }
    it.vouched = supply.hazard && **supply.hazard == "none";
    return true;
}

}  // namespace

double Component::boric_acid_equivalent() const {
    static const double of_boric_acid = reference::find_substance("boric acid")->boron_fraction();
    return boron / of_boric_acid;
}

bool Component::water() const {
    return substance == &mixing::water() && parts.size() == 1;
}

std::optional<Component> resolve(const job::Job& job, const job::Ingredient& ingredient,
                                 job::Form form, diag::Diagnostics& out) {
    Component it;
    it.name = ingredient.name;
    if (const auto supply = job.supplies.find(ingredient.name); supply != job.supplies.end()) {
        if (!take_from_supply(it, supply->second, form, out)) return std::nullopt;
    } else if (const Substance* substance = reference::find_substance(ingredient.name)) {
        take_after(it, *substance);
    } else {
        out.error(
            "unknown-substance", ingredient.place,
            fmt::format("'{}' is neither a known substance nor under 'supplies'", ingredient.name),
            "put it under 'supplies' with its 'density'");
        return std::nullopt;
    }
    for (const Part& part : it.parts) it.boron += part.share * part.substance->boron_fraction();
    return it;
}

std::optional<double> mass_for(const Component& component, const Substance& as) {
    if (as.borate() && component.borate()) return as.boron_fraction() / component.boron;
    for (const Part& part : component.parts) {
        if (part.substance == &as && part.share > 0) return 1 / part.share;
    }
    return std::nullopt;
}

}  // namespace gallipot::mixing
