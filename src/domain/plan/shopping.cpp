#include "domain/plan/shopping.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace gallipot::plan {

using units::Mass;

namespace {

struct Used {
    const mixing::Component* component = nullptr;
    Mass mass;
};

/// In the order in which the job first names them.
std::vector<Used> gather(const job::Job& job, const std::vector<MixCalculation>& calculation) {
    std::vector<Used> all;
    std::map<std::string, std::size_t> known;
    for (const MixCalculation& mix : calculation) {
        for (std::size_t i = 0; i < mix.recipe.components.size(); ++i) {
            const mixing::Component& component = mix.recipe.components[i];
            if (component.water() && !job.supplies.contains(component.name)) continue;
            const auto [at, fresh] = known.emplace(component.name, all.size());
            if (fresh) all.push_back({&component, {}});
            all[at->second].mass += mix.chosen.masses[i] * mix.mix.batches;
        }
    }
    return all;
}

std::optional<Mass> pack_mass(const job::Pack& pack, units::Density density) {
    if (pack.mass) return **pack.mass;
    if (pack.volume) return **pack.volume * density;
    return std::nullopt;
}

/// A part of a pack that is only a rounding error.
constexpr double rounding = 1e-9;

/// Packs that hold a mass: a rounding error is not worth a pack.
double packs_for(Mass mass, Mass pack) {
    return std::max(std::ceil(mass / pack - rounding), 1.0);
}

}  // namespace

Shopping shop(const job::Job& job, const std::vector<MixCalculation>& calculation, int containers) {
    Shopping out;
    Cost cost;
    cost.complete = true;
    bool priced = false;
    for (const Used& used : gather(job, calculation)) {
        Purchase it;
        it.name = used.component->name;
        it.mass = used.mass;
        it.volume = mixing::measured_volume(*used.component, used.mass);
        const auto supply = job.supplies.find(it.name);
        const job::Pack none;
        const job::Pack& pack = supply == job.supplies.end() ? none : supply->second.pack;
        const auto holds = pack_mass(pack, used.component->density.usual);
        if (holds && *holds > Mass{}) {
            it.packs = int(std::min(packs_for(used.mass, *holds), 1e9));
            const Mass left = *holds * *it.packs - used.mass;
            // A pack that is just used up leaves nothing, whatever the last bits say.
            it.left_over = left > *holds * rounding ? left : Mass{};
        }
        if (it.packs && pack.price) {
            priced = true;
            it.cost = *it.packs * **pack.price;
            cost.total += *it.cost;
            cost.used_up += used.mass / *holds * **pack.price;
        } else if (!used.component->water()) {
            cost.complete = false;
        }
        out.purchases.push_back(std::move(it));
    }
    if (priced) {
        if (containers > 0) cost.per_container = cost.total / containers;
        out.cost = cost;
    }
    return out;
}

}  // namespace gallipot::plan
