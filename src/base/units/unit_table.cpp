#include "base/units/unit_table.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <stdexcept>
#include <utility>
#include <variant>

#include "base/strings/ascii.hpp"
#include "base/units/number.hpp"

namespace gallipot::units {

namespace {

struct Row {
    std::string_view name;
    Unit unit;
    std::string_view in_full = {};  ///< of what is not metric
};

// Each unit's usual name, then its other names. Sizes are exact unless a comment says otherwise.
// Metric prefixes, degree Celsius, minute, hour, day, litre: SI Brochure (BIPM), tables 7 and 8.
// Inch 25.4 mm, foot 12 in, pound 0.45359237 kg, ounce 1/16 lb, grain 1/7000 lb: the international
// yard and pound agreement of 1959, as in NIST Handbook 44, Appendix C.
constexpr double inch = 0.0254;
constexpr double foot = 12 * inch;
constexpr std::array rows = {
    Row{"mL", {Dimension::volume, 1e-6}},
    Row{"ml", {Dimension::volume, 1e-6}},
    Row{"L", {Dimension::volume, 1e-3}},
    Row{"l", {Dimension::volume, 1e-3}},
    Row{"cL", {Dimension::volume, 1e-5}},
    Row{"cl", {Dimension::volume, 1e-5}},
    Row{"dL", {Dimension::volume, 1e-4}},
    Row{"dl", {Dimension::volume, 1e-4}},
    Row{"uL", {Dimension::volume, 1e-9}},
    Row{"ul", {Dimension::volume, 1e-9}},
    Row{"\u00B5L", {Dimension::volume, 1e-9}},  // micro sign
    Row{"\u03BCL", {Dimension::volume, 1e-9}},  // Greek mu
    Row{"cm3", {Dimension::volume, 1e-6}},
    Row{"cm\u00B3", {Dimension::volume, 1e-6}},
    Row{"litre", {Dimension::volume, 1e-3}},
    Row{"litres", {Dimension::volume, 1e-3}},
    Row{"liter", {Dimension::volume, 1e-3}},
    Row{"liters", {Dimension::volume, 1e-3}},

    Row{"g", {Dimension::mass, 1e-3}},
    Row{"kg", {Dimension::mass, 1}},
    Row{"mg", {Dimension::mass, 1e-6}},
    Row{"oz", {Dimension::mass, 0.45359237 / 16}, "ounce"},
    Row{"lb", {Dimension::mass, 0.45359237}, "pound"},
    Row{"lbs", {Dimension::mass, 0.45359237}, "pound"},
    Row{"gr", {Dimension::mass, 0.00006479891}, "grain"},  // grain, not gram
    Row{"gram", {Dimension::mass, 1e-3}},
    Row{"grams", {Dimension::mass, 1e-3}},

    Row{"mm", {Dimension::length, 1e-3}},
    Row{"cm", {Dimension::length, 1e-2}},
    Row{"m", {Dimension::length, 1}},
    Row{"in", {Dimension::length, inch}, "inch"},
    Row{"ft", {Dimension::length, foot}, "foot"},

    Row{"m2", {Dimension::area, 1}},
    Row{"cm2", {Dimension::area, 1e-4}},
    Row{"mm2", {Dimension::area, 1e-6}},
    Row{"ft2", {Dimension::area, foot* foot}, "square foot"},
    Row{"in2", {Dimension::area, inch* inch}, "square inch"},
    Row{"m\u00B2", {Dimension::area, 1}},
    Row{"cm\u00B2", {Dimension::area, 1e-4}},
    Row{"mm\u00B2", {Dimension::area, 1e-6}},
    Row{"ft\u00B2", {Dimension::area, foot* foot}, "square foot"},
    Row{"in\u00B2", {Dimension::area, inch* inch}, "square inch"},
    Row{"sq ft", {Dimension::area, foot* foot}, "square foot"},
    Row{"sq in", {Dimension::area, inch* inch}, "square inch"},

    Row{"d", {Dimension::duration, 86400}},
    Row{"h", {Dimension::duration, 3600}},
    Row{"min", {Dimension::duration, 60}},
    Row{"wk", {Dimension::duration, 7 * 86400}},
    Row{"hr", {Dimension::duration, 3600}},
    Row{"hrs", {Dimension::duration, 3600}},
    Row{"mins", {Dimension::duration, 60}},
    Row{"wks", {Dimension::duration, 7 * 86400}},
    Row{"day", {Dimension::duration, 86400}},
    Row{"days", {Dimension::duration, 86400}},
    Row{"hour", {Dimension::duration, 3600}},
    Row{"hours", {Dimension::duration, 3600}},
    Row{"minute", {Dimension::duration, 60}},
    Row{"minutes", {Dimension::duration, 60}},
    Row{"week", {Dimension::duration, 7 * 86400}},
    Row{"weeks", {Dimension::duration, 7 * 86400}},

    Row{"g/mL", {Dimension::density, 1e3}},
    Row{"g/ml", {Dimension::density, 1e3}},
    Row{"g/cm3", {Dimension::density, 1e3}},
    Row{"g/cm\u00B3", {Dimension::density, 1e3}},
    Row{"kg/L", {Dimension::density, 1e3}},
    Row{"kg/l", {Dimension::density, 1e3}},
    Row{"kg/m3", {Dimension::density, 1}},
    Row{"kg/m\u00B3", {Dimension::density, 1}},

    // t/C = (t/F - 32) x 5/9: NIST Special Publication 811, appendix B.
    Row{"C", {Dimension::temperature, 1}},
    Row{"\u00B0C", {Dimension::temperature, 1}},
    Row{"F", {Dimension::temperature, 5.0 / 9, 32}},
    Row{"\u00B0F", {Dimension::temperature, 5.0 / 9, 32}},

    Row{"%", {Dimension::share, 1}},
};

// What a kitchen's spoons hold, in mL; 0 where the name has no size of its own.
struct Kitchen {
    KitchenSystem system;
    std::string_view prefix;
    double teaspoon, tablespoon, cup, fluid_ounce, pint, quart, gallon;
};
constexpr std::array kitchens = {
    // The US gallon is 231 cubic inches; 4 quarts, 8 pints, 16 cups, 128 fluid ounces, 256
    // tablespoons, 768 teaspoons: NIST Handbook 44, Appendix C (found; the spoons as 1/2 and 1/6
    // fl oz in unitofconversion.com's definitions, found).
    Kitchen{KitchenSystem::us, "US", 4.92892159375, 14.78676478125, 236.5882365, 29.5735295625,
            473.176473, 946.352946, 3785.411784},
    // Rounded for nutrition labels: 21 CFR 101.9(b)(5)(viii) (found). It names no pint, quart or
    // gallon: those stay exact.
    Kitchen{KitchenSystem::us_label, "label", 5, 15, 240, 30, 473.176473, 946.352946, 3785.411784},
    // Metric spoons and cup as used in the UK, New Zealand and Canada: donnahay.com.au conversion
    // page, healthykids.nsw.gov.au conversion chart (found).
    Kitchen{KitchenSystem::metric, "metric", 5, 15, 250, 0, 0, 0, 0},
    // healthykids.nsw.gov.au conversion chart, after Standards Australia (found).
    Kitchen{KitchenSystem::australian, "AU", 5, 20, 250, 0, 0, 0, 0},
    // The imperial gallon is 4.54609 L (UK Units of Measurement Regulations; the fluid ounce of
    // 28.4130625 mL found in an exact chart after NIST); 4 quarts, 8 pints, 160 fluid ounces.
    // Cup half a pint (metricviews.uk on kitchen utensil names, found), tablespoon 5/8 fl oz
    // (found), teaspoon a third of that ("about 5.92 mL" in an encyclopaedia, found). The spoons
    // were never standardised: whoever owns modern ones has metric spoons.
    Kitchen{KitchenSystem::imperial, "imperial", 17.7581640625 / 3, 17.7581640625, 284.130625,
            28.4130625, 568.26125, 1136.5225, 4546.09},
};

struct Spoon {
    std::string_view name;
    double Kitchen::*size;
    std::string_view in_full;
};
constexpr std::array spoons = {
    Spoon{"tsp", &Kitchen::teaspoon, "teaspoon"},
    Spoon{"tbsp", &Kitchen::tablespoon, "tablespoon"},
    Spoon{"cup", &Kitchen::cup, "cup"},
    Spoon{"fl oz", &Kitchen::fluid_ounce, "fluid ounce"},
    Spoon{"pt", &Kitchen::pint, "pint"},
    Spoon{"qt", &Kitchen::quart, "quart"},
    Spoon{"gal", &Kitchen::gallon, "gallon"},
    Spoon{"teaspoon", &Kitchen::teaspoon, "teaspoon"},
    Spoon{"teaspoons", &Kitchen::teaspoon, "teaspoon"},
    Spoon{"tablespoon", &Kitchen::tablespoon, "tablespoon"},
    Spoon{"tablespoons", &Kitchen::tablespoon, "tablespoon"},
    Spoon{"cups", &Kitchen::cup, "cup"},
    Spoon{"pint", &Kitchen::pint, "pint"},
    Spoon{"pints", &Kitchen::pint, "pint"},
    Spoon{"quart", &Kitchen::quart, "quart"},
    Spoon{"quarts", &Kitchen::quart, "quart"},
    Spoon{"gallon", &Kitchen::gallon, "gallon"},
    Spoon{"gallons", &Kitchen::gallon, "gallon"},
};

const Kitchen& kitchen_of(KitchenSystem system) {
    return *std::find_if(kitchens.begin(), kitchens.end(),
                         [&](const Kitchen& k) { return k.system == system; });
}

/// In mL; 0 for a spoon without a size there, nothing for what is no spoon.
std::optional<double> spoon_size(std::string_view name, const Kitchen& kitchen) {
    const auto spoon =
        std::find_if(spoons.begin(), spoons.end(), [&](const Spoon& s) { return s.name == name; });
    if (spoon == spoons.end()) return {};
    return kitchen.*(spoon->size);
}

std::optional<Unit> of_millilitres(std::optional<double> size) {
    if (!size || *size == 0) return {};
    return Unit{Dimension::volume, *size * 1e-6};
}

/// A name with a system's word before it, split; the whole name when there is none.
std::pair<const Kitchen*, std::string_view> split(std::string_view name) {
    for (const Kitchen& kitchen : kitchens) {
        const std::size_t length = kitchen.prefix.size();
        if (name.size() > length + 1 && name.starts_with(kitchen.prefix) && name[length] == ' ') {
            return {&kitchen, name.substr(length + 1)};
        }
    }
    return {nullptr, name};
}

struct Wording {
    std::string_view name, unit, words;
};
// In the order of Dimension.
constexpr std::array<Wording, 8> wordings = {{
    {"a volume", "mL", "millilitres"},
    {"a mass", "g", "grams"},
    {"a length", "mm", "millimetres"},
    {"an area", "m2", "square metres"},
    {"a length of time", "d", "days"},
    {"a density", "g/mL", "grams per millilitre"},
    {"a temperature", "C", "degrees Celsius"},
    {"a share in percent", "%", "percent"},
}};
const Wording& wording(Dimension dimension) {
    return wordings.at(static_cast<std::size_t>(dimension));
}

}  // namespace

std::string_view name_of(Dimension dimension) {
    return wording(dimension).name;
}
std::string_view usual_unit(Dimension dimension) {
    return wording(dimension).unit;
}
std::string_view usual_unit_in_words(Dimension dimension) {
    return wording(dimension).words;
}
std::string_view prefix_of(KitchenSystem kitchen) {
    return kitchen_of(kitchen).prefix;
}

std::optional<Unit> find_unit(std::string_view name, KitchenSystem kitchen) {
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.name == name; });
    if (row != rows.end()) return row->unit;
    const auto [named, spoon] = split(name);
    return of_millilitres(spoon_size(spoon, named != nullptr ? *named : kitchen_of(kitchen)));
}

WrittenUnit unit_in_full(std::string_view name, KitchenSystem kitchen) {
    for (const Row& row : rows) {
        if (row.in_full == name) return {row.in_full, row.unit.si, {}};
    }
    for (const Spoon& spoon : spoons) {
        const double size = kitchen_of(kitchen).*(spoon.size);
        if (spoon.in_full == name && size > 0) return {spoon.in_full, size * 1e-6, kitchen};
    }
    throw std::logic_error("no unit called '" + std::string(name) + "'");
}

WrittenUnit written_unit(std::string_view quantity, KitchenSystem kitchen) {
    const std::string_view text = strings::trimmed(quantity);
    const auto read = read_number(text, Sign::any);
    const auto* number = std::get_if<Number>(&read);
    if (number == nullptr) return {};
    const std::string_view name = strings::trimmed(text.substr(number->end));
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.name == name; });
    if (row != rows.end()) {
        if (row->in_full.empty()) return {};
        return {row->in_full, row->unit.si, {}};
    }
    const auto [named, word] = split(name);
    const Kitchen& whose = named != nullptr ? *named : kitchen_of(kitchen);
    for (const Spoon& spoon : spoons) {
        const double size = whose.*(spoon.size);
        if (spoon.name == word && size > 0) return {spoon.in_full, size * 1e-6, whose.system};
    }
    return {};
}

bool needs_naming(const WrittenUnit& unit, KitchenSystem usual) {
    if (!unit.kitchen) return false;
    return std::none_of(spoons.begin(), spoons.end(), [&](const Spoon& spoon) {
        return spoon.in_full == unit.name && kitchen_of(usual).*(spoon.size) * 1e-6 == unit.si;
    });
}

bool needs_system(std::string_view name, KitchenSystem kitchen) {
    const auto [named, spoon] = split(name);
    return spoon_size(spoon, named != nullptr ? *named : kitchen_of(kitchen)) == 0.0;
}

std::vector<std::string> unit_names(Dimension dimension) {
    std::vector<std::string> names;
    for (const Row& row : rows) {
        if (row.unit.dimension == dimension) names.emplace_back(row.name);
    }
    if (dimension != Dimension::volume) return names;
    for (const Spoon& spoon : spoons) names.emplace_back(spoon.name);
    for (const Kitchen& kitchen : kitchens) {
        for (const Spoon& spoon : spoons) {
            if (kitchen.*(spoon.size) == 0) continue;
            names.push_back(std::string(kitchen.prefix) + " " + std::string(spoon.name));
        }
    }
    return names;
}

}  // namespace gallipot::units
