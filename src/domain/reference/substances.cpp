#include "domain/reference/substances.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>

#include "base/strings/ascii.hpp"
#include "domain/reference/atoms.hpp"
#include "domain/reference/tables.hpp"

namespace gallipot::reference {

namespace {

const std::vector<Substance>& table() {
    static const std::vector<Substance> all = [] {
        std::vector<Substance> both = foods();
        std::ranges::move(borates(), std::back_inserter(both));
        return both;
    }();
    return all;
}

std::map<std::string, const Substance*, std::less<>> index() {
    std::map<std::string, const Substance*, std::less<>> by_name;
    for (const Substance& substance : table()) {
        by_name.emplace(strings::to_lower(substance.name), &substance);
        by_name.emplace(strings::to_lower(substance.formal), &substance);
        for (const auto name : substance.also) by_name.emplace(strings::to_lower(name), &substance);
    }
    return by_name;
}

}  // namespace

bool StatedHazard::has(HazardClass one) const {
    return classes_ && std::ranges::find(classes_->value, one) != classes_->value.end();
}

double Substance::boron_fraction() const {
    if (!borate() || !molar_mass_g_per_mol) return 0;
    return boron_atoms * atoms::boron / molar_mass_g_per_mol->value;
}

std::span<const Substance> substances() {
    return table();
}

const Substance* find_substance(std::string_view name) {
    static const auto by_name = index();
    const auto at = by_name.find(strings::to_lower(name));
    return at == by_name.end() ? nullptr : at->second;
}

std::vector<std::string> substance_names() {
    std::vector<std::string> names;
    for (const auto& [name, substance] : index()) names.push_back(name);
    return names;
}

double borate_equivalent(const Substance& from, const Substance& to) {
    if (!from.borate() || !to.borate()) {
        throw std::invalid_argument("borate_equivalent: both substances must hold boron");
    }
    return from.boron_fraction() / to.boron_fraction();
}

std::optional<double> solubility_at(const Substance& substance, units::Celsius temperature) {
    if (!substance.solubility) return std::nullopt;
    const auto& points = substance.solubility->value;
    const auto above = std::ranges::find_if(
        points, [&](const SolubilityPoint& point) { return point.temperature >= temperature; });
    if (above == points.begin()) return points.front().g_per_100g_water;
    if (above == points.end()) return points.back().g_per_100g_water;
    const auto below = above - 1;
    const double part = (temperature.degrees - below->temperature.degrees) /
                        (above->temperature.degrees - below->temperature.degrees);
    // Solubility rises roughly exponentially with temperature, so its logarithm is the straighter.
    return below->g_per_100g_water *
           std::pow(above->g_per_100g_water / below->g_per_100g_water, part);
}

}  // namespace gallipot::reference
