#pragma once

#include <string_view>

#include "base/units/number.hpp"
#include "base/units/quantity.hpp"
#include "base/units/unit_table.hpp"

/// Quantities from text, strictly: a number (see number.hpp) and a unit of the wanted dimension.
/// "60 mL", "1 1/2 tsp", "8 C", "6 m2", "10 %". Only temperatures may be below zero.
namespace gallipot::units {

Parsed<Volume> parse_volume(std::string_view text, KitchenSystem kitchen);
Parsed<Mass> parse_mass(std::string_view text);
Parsed<Length> parse_length(std::string_view text);
Parsed<Area> parse_area(std::string_view text);
Parsed<Duration> parse_duration(std::string_view text);
Parsed<Density> parse_density(std::string_view text);
Parsed<Celsius> parse_temperature(std::string_view text);
Parsed<Share> parse_share(std::string_view text);

}  // namespace gallipot::units
