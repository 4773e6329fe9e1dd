#include "domain/mixing/component.hpp"

#include <fmt/format.h>

#include "domain/reference/sucrose.hpp"

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

/// What nobody describes further is poured, unless it goes into a dry mix or packs (its density is
/// a range): then it is a powder.
bool poured(const job::Supply& supply, job::Form form) {
    return form != job::Form::dry && (!supply.density || (*supply.density)->exact());
}

/// A bought product with so much of a known substance: in water when it is poured, else beside
/// something nobody knows.
bool take_product(Component& it, const job::Supply& supply, job::Form form,
                  diag::Diagnostics& out) {
    const job::Strength& strength = *supply.strength;
    const Substance* active = reference::find_substance(*strength.of);
    if (active == nullptr) {
        out.error("unknown-substance", strength.of.place,
                  diag::say("unknown substance '{}'", *strength.of),
                  "name a known substance in 'strength'");
        return false;
    }
    const double share = strength.share->fraction;
    if (!poured(supply, form)) {
        it.state = reference::State::powder;
        it.parts = {{active, share, false}};
    } else {
        it.state = reference::State::liquid;
        it.parts = {{active, share, true}, {&water(), 1 - share, true}};
    }
    if (supply.density) return true;
    const auto maximum = reference::solubility_at(*active, {20});
    if (it.powder() || !maximum || share > *maximum / (100 + *maximum)) {
        out.error("missing-density", supply.place,
                  diag::say("'{}' with {:.3g} % of {} is no clear solution in water, so its "
                            "density is not known",
                            supply.name, strength.share->in_percent(), diag::term(active->name)),
                  "add its density in g/mL, as scooped or poured");
        return false;
    }
    it.density = Range<Density>::exactly(solution_density(*active, *strength.share));
    it.true_density = it.density.usual;
    return true;
}

bool take_from_supply(Component& it, const job::Supply& supply, job::Form form,
                      diag::Diagnostics& out) {
    const Substance* substance =
        reference::find_substance(supply.substance ? **supply.substance : supply.name);
    if (supply.strength) {
        if (!take_product(it, supply, form, out)) return false;
    } else if (substance != nullptr) {
        take_after(it, *substance);
    } else if (supply.density) {
        it.state = poured(supply, form) ? reference::State::liquid : reference::State::powder;
    } else {
        out.error("missing-density", supply.place,
                  diag::say("nothing is known of '{}', so neither its volume nor its share can "
                            "be worked out",
                            supply.name),
                  "add its density in g/mL, as scooped or poured");
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
        out.error("unknown-ingredient", ingredient.place,
                  diag::say("'{}' is neither a supply nor a known substance", ingredient.name),
                  "add it to supplies with its density");
        return std::nullopt;
    }
    for (const Part& part : it.parts) it.boron += part.share * part.substance->boron_fraction();
    return it;
}

double boric_acid_per_boron() {
    static const double per = 1 / reference::find_substance("boric acid")->boron_fraction();
    return per;
}

std::optional<double> mass_for(const Component& component, const Substance& as) {
    if (as.borate() && component.borate()) return as.boron_fraction() / component.boron;
    for (const Part& part : component.parts) {
        if (part.substance == &as && part.share > 0) return 1 / part.share;
    }
    return std::nullopt;
}

}  // namespace gallipot::mixing
