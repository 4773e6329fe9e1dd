#include "base/units/parse.hpp"

#include <array>
#include <cstddef>
#include <fmt/format.h>
#include <optional>
#include <string>

#include "base/strings/ascii.hpp"

namespace gallipot::units {

namespace {

using diag::say;
using diag::term;
using diag::Text;

// Only volumes depend on the kitchen.
constexpr KitchenSystem any_kitchen = KitchenSystem::metric;

// In the order of Dimension: a few that people know; the whole list would bury them.
constexpr std::array<std::string_view, 8> usual_units = {
    "mL, L, tsp, tbsp, cup, fl oz or US pt",
    "g, kg, mg, oz or lb",
    "mm, cm, m, in or ft",
    "m2, cm2, ft2 or in2",
    "min, h, d or wk",
    "g/mL, g/cm3, kg/L or kg/m3",
    "C or F",
    "%",
};

Text usual_units_for(Dimension wanted) {
    return term(usual_units.at(static_cast<std::size_t>(wanted)));
}

Text write_like(Dimension wanted) {
    return say("write {} in {}", term(name_of(wanted)), usual_units_for(wanted));
}

Text hint_for_wrong_dimension(const std::string& number, std::string_view unit, Dimension wanted,
                              Dimension got) {
    if (wanted == Dimension::volume && unit == "oz") {
        return say("write {} fl oz if fluid ounces are meant", number);
    }
    if (wanted == Dimension::duration && unit == "m") {
        return say("write {} min if minutes are meant", number);
    }
    if (wanted == Dimension::area && got == Dimension::length) {
        return say("write {} {}2 if square measure is meant", number, unit);
    }
    return write_like(wanted);
}

/// Months and years, which are not of one length, with the days that are usually meant.
std::optional<double> usual_days(std::string_view unit) {
    if (unit == "month" || unit == "months") return 30;
    if (unit == "year" || unit == "years" || unit == "yr" || unit == "yrs") return 365;
    return std::nullopt;
}

/// The value in SI (degrees Celsius, percent) of a quantity of dimension `wanted`.
Parsed<double> parse_si(std::string_view whole, Dimension wanted, KitchenSystem kitchen) {
    const std::string_view text = strings::trimmed(whole);
    const Text kind = term(name_of(wanted));
    if (text.empty()) {
        return Problem{
            "empty-value", say("expected {}, got nothing", kind), write_like(wanted), {}, {}};
    }
    const auto parsed =
        read_number(text, wanted == Dimension::temperature ? Sign::any : Sign::positive);
    if (const auto* problem = std::get_if<Problem>(&parsed)) return *problem;
    const Number& read = std::get<Number>(parsed);
    const std::string number(text.substr(0, read.end));
    const std::string_view unit = strings::trimmed(text.substr(read.end));
    if (unit.empty()) {
        return Problem{"missing-unit",
                       say("'{}' has no unit; {} was expected", text, kind),
                       say("write {} {} if {} are meant", number, usual_unit(wanted),
                           term(usual_unit_in_words(wanted))),
                       {},
                       {}};
    }
    if (needs_system(unit, kitchen)) {
        return Problem{"ambiguous-unit",
                       say("'{}' is not the same size everywhere", unit),
                       say("write {0} US {1} or {0} imperial {1}", number, unit),
                       {},
                       {}};
    }
    const auto days = wanted == Dimension::duration ? usual_days(unit) : std::nullopt;
    if (days) {
        const bool month = *days < 31;
        return Problem{
            "ambiguous-unit",
            month ? "a month has 28 to 31 days" : "a year has 365 or 366 days",
            month ? say("write {:.15g} d if months of 30 days are meant", read.value * *days)
                  : say("write {:.15g} d if years of 365 days are meant", read.value * *days),
            {},
            {}};
    }
    const auto known = find_unit(unit, kitchen);
    if (!known) {
        return Problem{"unknown-unit", say("unknown unit '{}'; {} was expected", unit, kind),
                       say("use {}", usual_units_for(wanted)), number, std::string(unit)};
    }
    if (known->dimension != wanted) {
        return Problem{
            "wrong-unit",
            say("'{}' is {}; {} was expected", text, term(name_of(known->dimension)), kind),
            hint_for_wrong_dimension(number, unit, wanted, known->dimension),
            {},
            {}};
    }
    return (read.value - known->zero) * known->si;
}

template <class T, class Make>
Parsed<T> as(const Parsed<double>& value, Make make) {
    if (const auto* problem = std::get_if<Problem>(&value)) return *problem;
    return make(std::get<double>(value));
}
template <class Q>
Parsed<Q> quantity(std::string_view text, Dimension wanted, KitchenSystem kitchen = any_kitchen) {
    return as<Q>(parse_si(text, wanted, kitchen), [](double si) { return Q::si(si); });
}

}  // namespace

Parsed<Volume> parse_volume(std::string_view text, KitchenSystem kitchen) {
    return quantity<Volume>(text, Dimension::volume, kitchen);
}
Parsed<Mass> parse_mass(std::string_view text) {
    return quantity<Mass>(text, Dimension::mass);
}
Parsed<Length> parse_length(std::string_view text) {
    return quantity<Length>(text, Dimension::length);
}
Parsed<Area> parse_area(std::string_view text) {
    return quantity<Area>(text, Dimension::area);
}
Parsed<Duration> parse_duration(std::string_view text) {
    return quantity<Duration>(text, Dimension::duration);
}
Parsed<Density> parse_density(std::string_view text) {
    return quantity<Density>(text, Dimension::density);
}
Parsed<Celsius> parse_temperature(std::string_view text) {
    return as<Celsius>(parse_si(text, Dimension::temperature, any_kitchen),
                       [](double degrees) { return Celsius{degrees}; });
}
Parsed<Share> parse_share(std::string_view text) {
    return as<Share>(parse_si(text, Dimension::share, any_kitchen),
                     [](double percent) { return Share::percent(percent); });
}

}  // namespace gallipot::units
