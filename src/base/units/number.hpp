#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/diag/text.hpp"

/// Numbers from text, strictly, and with a plain word on what is wrong. No locale takes part.
///
/// A number is written in decimal digits with a point: no sign (but for what may be below zero), no
/// needless leading zero, no exponent, at most 15 significant digits, at most a thousand million.
/// Fractions stand for cooks: "1/2", "1 1/2", "½", "1½", "1 and 1/2". Words do too (see
/// number_words.hpp): "half a cup" is 1/2, "a week" is 1, "two and a half cups" are 2 1/2.
namespace gallipot::units {

/// Why a text is not what was wanted.
struct Problem {
    std::string code;    ///< of the diagnostic: "missing-unit"
    diag::Text message;  ///< one sentence, no full stop
    diag::Text hint;     ///< an imperative, with the corrected text where there is one
    std::string number;  ///< of an unknown unit: the number before it
    std::string unit;    ///< the unknown unit itself, to look for near spellings; else empty
};

template <class T>
using Parsed = std::variant<T, Problem>;

enum class Sign { positive, any };

/// A plain number without a unit; fractions too.
Parsed<double> parse_number(std::string_view text, Sign sign = Sign::positive);

/// A whole number of at most nine digits, or "one" to "twelve".
Parsed<int> parse_whole(std::string_view text);

/// The number `text` begins with, and the offset of what follows it.
struct Number {
    double value = 0;
    std::size_t end = 0;
};
Parsed<Number> read_number(std::string_view text, Sign sign);

/// "½" and the others that may stand for a fraction.
std::vector<std::string_view> vulgar_fractions();

}  // namespace gallipot::units
