#include "domain/mixing/solution.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "domain/reference/glycerol.hpp"
#include "domain/reference/sucrose.hpp"

namespace gallipot::mixing {

using reference::Substance;
using units::Celsius;
using units::Mass;
using units::Volume;

namespace {

const Substance& named(std::string_view name) {
    return *reference::find_substance(name);
}

/// The substances whose chemistry the borate rule knows.
struct Borates {
    const Substance* decahydrate = &named("borax");
    const Substance* pentahydrate = &named("borax pentahydrate");
    const Substance* boric_acid = &named("boric acid");
    const Substance* octaborate = &named("disodium octaborate");
};
const Borates& borates() {
    static const Borates all;
    return all;
}

double molar_mass(const Substance& substance) {
    return substance.molar_mass_g_per_mol->value;
}

/// kg that dissolve in one kg of water.
double solubility(const Substance& substance, Celsius temperature, Solution::Tables tables) {
    const double table = *reference::solubility_at(substance, temperature) / 100;
    return tables == Solution::Tables::cautiously ? table * (1 - substance.solubility_doubt)
                                                  : table;
}

constexpr double freezing = 0;

}  // namespace

Solution::Solution(std::span<const Component> components, std::span<const Mass> masses) {
    for (std::size_t i = 0; i < components.size(); ++i) {
        const Component& component = components[i];
        const double mass = masses[i].si();
        if (!component.powder()) {
            fixed_volume_ += mass / component.density.usual.si();
        }
        double known = 0;
        for (const Part& part : component.parts) {
            add(part, mass * part.share);
            known += part.share;
        }
        // What nobody knows does not dissolve.
        if (component.powder()) fixed_volume_ += mass * (1 - known) / component.true_density.si();
    }
}

void Solution::add(const Part& part, double mass) {
    const Substance& substance = *part.substance;
    static const Substance& glycerol = named("glycerol");
    if (substance.water) water_ += mass * substance.water->value;
    if (&substance == &glycerol) glycerol_ += mass;
    if (!substance.solubility) {
        if (substance.holds_water) {
            const double solids = mass * (substance.water ? 1 - substance.water->value : 1);
            const auto& [molar_mass, norrish] = substance.holds_water->value;
            humectants_.push_back({solids / molar_mass * 1000, norrish});
        }
        if (!part.in_solution) fixed_volume_ += mass / substance.true_density.value.si();
        return;
    }
    // Every sugar is the same once it is in the water.
    static const Substance& sucrose = named("sugar");
    const Substance* as = substance.sugar ? &sucrose : &substance;
    auto solute = std::ranges::find(solutes_, as, &Solute::substance);
    if (solute == solutes_.end()) solute = solutes_.insert(solutes_.end(), {as, 0, 0});
    solute->mass += mass;
    if (!part.in_solution) solute->powder += mass;
}

double Solution::borate_saturation(Celsius temperature, Tables tables) const {
    double tetraborate = 0, boric_acid = 0;  // kmol
    for (const Solute& solute : solutes_) {
        const Substance* it = solute.substance;
        const double amount = it->borate() ? solute.mass / molar_mass(*it) : 0;
        if (it == borates().boric_acid) {
            boric_acid += amount;
        } else if (it != borates().octaborate) {
            tetraborate += amount;
        }
    }
    const double pairs = std::min(tetraborate, boric_acid / 4);
    const double solvent = water_ + glycerol_;
    const double glycerol = solvent > 0 ? glycerol_ / solvent : 0;
    const auto dissolves = [&](const Substance& it) {
        const bool borax = &it == borates().decahydrate || &it == borates().pentahydrate;
        return solubility(it, temperature, tables) * reference::times_in_glycerol(glycerol, borax);
    };
    double sum = 0;
    for (const Solute& solute : solutes_) {
        const Substance* it = solute.substance;
        if (!it->borate()) continue;
        double left = solute.mass;
        if (pairs > 0 && it == borates().boric_acid) {
            left *= 1 - 4 * pairs / boric_acid;
        } else if (pairs > 0 && it != borates().octaborate) {
            left *= 1 - pairs / tetraborate;
        }
        sum += left / dissolves(*it);
    }
    if (pairs > 0) {
        sum += pairs * molar_mass(*borates().octaborate) / dissolves(*borates().octaborate);
    }
    // With nothing there, and nothing to dissolve it in, it is still nothing.
    return sum > 0 ? sum / solvent : 0;
}

double Solution::saturation_of(const Solute& solute, Celsius temperature, Tables tables) const {
    if (solute.mass <= 0) return 0;
    return solute.mass / solubility(*solute.substance, temperature, tables) / water_;
}

double Solution::saturation(Celsius temperature, Tables tables) const {
    double maximum = borate_saturation(temperature, tables);
    for (const Solute& solute : solutes_) {
        if (solute.substance->borate()) continue;
        maximum = std::max(maximum, saturation_of(solute, temperature, tables));
    }
    return maximum;
}

Celsius Solution::end_of_tables() const {
    double end = 100;
    for (const Solute& solute : solutes_) {
        // Octaborate's table ends at 94 C, where nobody heats to: hold it to the boil.
        if (solute.substance->borate()) continue;
        end = std::min(end, solute.substance->solubility->value.back().temperature.degrees);
    }
    return {end};
}

double Solution::hottest_saturation() const {
    return saturation(end_of_tables(), Tables::cautiously);
}

std::optional<Celsius> Solution::clear_from() const {
    if (saturation({freezing}, Tables::cautiously) <= 1 || never_clear()) return std::nullopt;
    double cold = freezing, warm = end_of_tables().degrees;
    while (warm - cold > 1e-6) {
        const double middle = std::midpoint(cold, warm);
        (saturation({middle}, Tables::cautiously) > 1 ? cold : warm) = middle;
    }
    return Celsius{warm};
}

bool Solution::borates_together() const {
    const auto has = [&](auto... wanted) {
        return std::ranges::any_of(solutes_, [&](const Solute& solute) {
            return ((solute.substance == wanted && solute.mass > 0) || ...);
        });
    };
    return has(borates().boric_acid) && has(borates().decahydrate, borates().pentahydrate);
}

double Solution::dissolved_part(const Solute& solute) const {
    // With nothing to dissolve it in what would saturate it is infinite, and nothing dissolves.
    const double over = solute.substance->borate()
                            ? borate_saturation(room_temperature, Tables::as_they_are)
                            : saturation_of(solute, room_temperature, Tables::as_they_are);
    return over > 1 ? 1 / over : 1;
}

Solution Solution::dried_by(Mass lost) const {
    Solution dried = *this;
    dried.water_ -= lost.si();
    dried.fixed_volume_ -= (lost / named("water").true_density.value).si();
    return dried;
}

Volume Solution::volume() const {
    double sugar = 0;
    for (const Solute& solute : solutes_) {
        if (solute.substance->sugar) sugar += solute.mass * dissolved_part(solute);
    }
    double volume = fixed_volume_;
    for (const Solute& solute : solutes_) {
        if (solute.powder <= 0) continue;
        const Substance& it = *solute.substance;
        const double clear = solute.powder * dissolved_part(solute);
        volume += (solute.powder - clear) / it.true_density.value.si();
        if (clear <= 0) continue;
        const double room =
            it.sugar ? reference::sucrose_volume_in_solution({sugar / (sugar + water_)}).si()
                     : it.volume_in_solution->value.si();
        volume += clear * room;
    }
    return Volume::si(volume);
}

Volume finished_volume(std::span<const Component> components, std::span<const Mass> masses,
                       job::Form form) {
    if (form != job::Form::dry) return Solution(components, masses).volume();
    Volume volume;
    for (std::size_t i = 0; i < components.size(); ++i) {
        volume += masses[i] / components[i].density.usual;
    }
    return volume;
}

}  // namespace gallipot::mixing
