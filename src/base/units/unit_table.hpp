#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Every unit a job file may write, each with its exact size and where that comes from. This is
/// the one home of conversion factors.
namespace gallipot::units {

/// Which sizes spoons and cups have: US customary, the rounded US sizes of nutrition labels, metric
/// (most of the world), Australian (a 20 mL tablespoon) or British imperial.
enum class KitchenSystem { us, us_label, metric, australian, imperial };

enum class Dimension { volume, mass, length, area, duration, density, temperature, share };

/// With its article, for sentences: "a volume".
std::string_view name_of(Dimension dimension);

/// The unit to suggest when one is missing, and its name in words: "mL", "millilitres".
std::string_view usual_unit(Dimension dimension);
std::string_view usual_unit_in_words(Dimension dimension);

/// SI value = (written value - `zero`) x `si`. SI base units (m3, kg, m, m2, s, kg/m3), except that
/// temperatures become degrees Celsius and shares stay in percent.
struct Unit {
    Dimension dimension = Dimension::volume;
    double si = 1;
    double zero = 0;
};

/// The unit called `name`, exactly as written. Bare "tsp", "tbsp", "cup", "fl oz", "pt", "qt" and
/// "gal" go by `kitchen`; "US tsp" or "imperial pt" say for themselves. Empty when there is no such
/// unit, or when it has no size of its own in that kitchen (see `needs_system`).
std::optional<Unit> find_unit(std::string_view name, KitchenSystem kitchen);

/// The unit that an amount was written in, where that is not metric, so that papers can show it in
/// the same: a spoon, a cup, an ounce, a square foot.
struct WrittenUnit {
    std::string_view name;  ///< in full: "fluid ounce"; empty where it is metric or nobody wrote it
    double si = 1;          ///< its size in SI base units
    std::optional<KitchenSystem> kitchen;  ///< whose size that is; none for what has one size only
    [[nodiscard]] bool metric() const { return name.empty(); }
    bool operator==(const WrittenUnit&) const = default;
};

/// The unit of a quantity as written: "1 1/2 US cup". Metric for what is no quantity.
WrittenUnit written_unit(std::string_view quantity, KitchenSystem kitchen);

/// The unit called `name` in full: "fluid ounce". Throws std::logic_error where there is none.
WrittenUnit unit_in_full(std::string_view name, KitchenSystem kitchen);

/// Whether a reader who takes names by `usual` would take this unit's name for another size, or
/// for none: a US cup where cups are metric.
bool needs_naming(const WrittenUnit& unit, KitchenSystem usual);

/// Which units to show amounts in.
enum class UnitSystem { metric, us };
struct DisplayUnits {
    UnitSystem amounts = UnitSystem::metric;  ///< masses and volumes that nobody wrote in a unit
    UnitSystem sizes = UnitSystem::metric;    ///< temperatures, lengths and areas
    KitchenSystem kitchen = KitchenSystem::metric;  ///< whose spoons and cups readers know
    bool operator==(const DisplayUnits&) const = default;
};

/// Whether `name` is a unit that has a size only once a system is named: "pt" where the kitchen is
/// metric.
bool needs_system(std::string_view name, KitchenSystem kitchen);

/// Every name of a unit of that dimension, the usual one first: for lists and near spellings.
std::vector<std::string> unit_names(Dimension dimension);

/// The word before a spoon's name that picks its system: "US", "label", "metric", "AU", "imperial".
/// The same words are the values of the job's key `spoons`.
std::string_view prefix_of(KitchenSystem kitchen);

}  // namespace gallipot::units
