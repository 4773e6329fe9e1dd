#pragma once

#include <string>

#include "base/units/number.hpp"
#include "base/units/unit_table.hpp"

/// The grammar of numbers and quantities as regular expressions (ECMA-262, without anchors), for
/// programs that check a file while it is typed. What a pattern takes may still be refused: sizes,
/// digits in all and units without a size of their own are not in it.
namespace gallipot::units {

/// What read_number takes.
std::string number_pattern(Sign sign = Sign::positive);

/// Of these the ones with a fraction or in words: "1/2", "1 1/2", "½", "half a". YAML takes them
/// for texts.
std::string fraction_pattern(Sign sign = Sign::positive);

/// "one" to "twelve".
std::string whole_word_pattern();

/// A number and one of the units of that dimension, blanks around them.
std::string quantity_pattern(Dimension dimension);

}  // namespace gallipot::units
