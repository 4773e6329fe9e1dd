#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/reference/cited.hpp"

namespace gallipot::reference {

enum class State { powder, liquid, paste };

/// One point of a solubility curve: grams, as bought with its crystal water, that dissolve in 100 g
/// of water added.
struct SolubilityPoint {
    units::Celsius temperature;
    double g_per_100g_water = 0;
};

/// Hazard classes that a substance of the table may have (CLP Annex I).
enum class HazardClass { reproductive_1b, eye_irritation_2 };

/// What a pure substance is classified as, beside its source; no class at all is a statement too.
/// It has no default, so that no substance gets into the table without one. Where nobody has looked
/// it up it is `unstated`: then the hazard of all that holds the substance is not known.
class StatedHazard {
  public:
    StatedHazard(Cited<std::vector<HazardClass>> classes) : classes_(std::move(classes)) {}
    static StatedHazard unstated() { return {}; }

    [[nodiscard]] bool known() const { return classes_.has_value(); }
    [[nodiscard]] bool has(HazardClass one) const;
    /// Throws std::bad_optional_access when it is unstated.
    [[nodiscard]] const Cited<std::vector<HazardClass>>& classes() const {
        return classes_.value();
    }

  private:
    StatedHazard() = default;
    std::optional<Cited<std::vector<HazardClass>>> classes_;
};

/// How a substance holds water back once it is dissolved (mixing/water_activity.cpp).
struct HoldsWater {
    double molar_mass_g_per_mol = 0;  ///< of a syrup: the mean of its solids
    double norrish = 0;               ///< Norrish's constant; 0 is Raoult's law
};

/// What is known of a substance that a bait may hold. Names are those the job file uses.
struct Substance {
    std::string_view name;               ///< "borax"
    std::string_view formal;             ///< which of its kind it is: "borax decahydrate"
    std::vector<std::string_view> also;  ///< other names a job may use: "sodium tetraborate"
    State state = State::powder;
    StatedHazard hazard;
    /// As scooped (powders: how it packs gives the range) or poured.
    Cited<units::Range<units::Density>> density;
    /// Of the solid itself, or of the liquid: the volume it takes up where no air is left.
    Cited<units::Density> true_density;
    std::optional<Cited<double>> molar_mass_g_per_mol = {};
    int boron_atoms = 0;  ///< per formula unit
    /// Apparent, when dissolved.
    std::optional<Cited<units::SpecificVolume>> volume_in_solution = {};
    /// In water, rising temperature. None: does not dissolve, or mixes in any amount.
    std::optional<Cited<std::vector<SolubilityPoint>>> solubility = {};
    /// How far the solubility table may be off, as a part of its value: sources differ as much.
    double solubility_doubt = 0;
    bool sugar = false;  ///< takes up the volume of sucrose in solution (reference/sucrose.hpp)
    /// Water it brings along: of a syrup or honey, by mass; none when nobody knows.
    std::optional<Cited<double>> water = {};
    /// None: by its molar mass alone where it has a solubility, else not at all.
    std::optional<Cited<HoldsWater>> holds_water = {};
    std::string_view cas = {};

    [[nodiscard]] bool borate() const { return boron_atoms > 0; }
    /// Mass of boron per mass; 0 for what holds none.
    [[nodiscard]] double boron_fraction() const;
};

std::span<const Substance> substances();

/// By name, formal name or other name, letter case ignored; null when unknown.
const Substance* find_substance(std::string_view name);

/// Every name that find_substance knows, for near spellings.
std::vector<std::string> substance_names();

/// Grams of `to` that hold as much boron as one gram of `from`. Both must be borates: throws
/// std::invalid_argument when one is not.
double borate_equivalent(const Substance& from, const Substance& to);

/// Grams that dissolve in 100 g of water at a temperature, the logarithm interpolated between the
/// table's points and held at its ends. None for what has no table (does not dissolve, or mixes
/// with water in any amount).
std::optional<double> solubility_at(const Substance& substance, units::Celsius temperature);

}  // namespace gallipot::reference
