#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "reference/cited.hpp"
#include "units/quantity.hpp"

namespace gallipot::reference {

enum class State { powder, liquid, paste };

/// One point of a solubility curve: grams that dissolve in 100 g of water.
struct SolubilityPoint {
    units::Celsius temperature;
    double g_per_100g_water = 0;
};

/// What is known of a substance that a bait may hold. Names are those the job file uses.
struct Substance {
    std::string_view name;                       ///< "borax"
    std::vector<std::string_view> also;          ///< other names a job may use: "borax decahydrate"
    State state = State::powder;
    /// As scooped (powders: how it packs gives the range) or poured.
    Cited<units::Range<units::Density>> density;
    /// Of the solid itself, or of the liquid: the volume it takes up where no air is left.
    Cited<units::Density> true_density;
    std::optional<Cited<double>> molar_mass_g_per_mol;
    int boron_atoms = 0;                         ///< per formula unit
    std::optional<Cited<units::SpecificVolume>> volume_in_solution;  ///< apparent, when dissolved
    std::optional<Cited<std::vector<SolubilityPoint>>> solubility;   ///< in water, rising temperature
    std::string_view cas;

    [[nodiscard]] bool borate() const { return boron_atoms > 0; }
    /// Mass of boron per mass; 0 for what holds none.
    [[nodiscard]] double boron_fraction() const;
};

std::span<const Substance> substances();

/// By name or other name, letter case ignored; null when unknown.
const Substance* find_substance(std::string_view name);

/// Every name and other name, for near spellings.
std::vector<std::string> substance_names();

/// Grams of `to` that hold as much boron as one gram of `from`. Both must be borates.
double borate_equivalent(const Substance& from, const Substance& to);

}  // namespace gallipot::reference
