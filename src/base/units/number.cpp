#include "base/units/number.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <fmt/format.h>
#include <optional>
#include <utility>

#include "base/strings/ascii.hpp"
#include "base/units/number_words.hpp"

namespace gallipot::units {

namespace {

using diag::say;
using diag::Text;

constexpr std::size_t maximum_digits = 15;  // what a double holds without loss
constexpr double largest = 1e9;
constexpr double smallest = 1e-9;

/// How many digits stand at `at`.
std::size_t digits_at(std::string_view text, std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && strings::is_digit(text[end])) ++end;
    return end - at;
}

double to_double(std::string_view digits) {
    double value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

// Unicode's vulgar fractions that have a name as a spoon has: U+00BC to U+00BE, U+2153 and on.
struct Vulgar {
    std::string_view text;
    int over, under;
};
constexpr std::array<Vulgar, 18> vulgar = {{{"\u00BC", 1, 4},
                                            {"\u00BD", 1, 2},
                                            {"\u00BE", 3, 4},
                                            {"\u2150", 1, 7},
                                            {"\u2151", 1, 9},
                                            {"\u2152", 1, 10},
                                            {"\u2153", 1, 3},
                                            {"\u2154", 2, 3},
                                            {"\u2155", 1, 5},
                                            {"\u2156", 2, 5},
                                            {"\u2157", 3, 5},
                                            {"\u2158", 4, 5},
                                            {"\u2159", 1, 6},
                                            {"\u215A", 5, 6},
                                            {"\u215B", 1, 8},
                                            {"\u215C", 3, 8},
                                            {"\u215D", 5, 8},
                                            {"\u215E", 7, 8}}};

const Vulgar* vulgar_at(std::string_view text, std::size_t at) {
    const auto found = std::find_if(vulgar.begin(), vulgar.end(), [&](const Vulgar& v) {
        return text.substr(std::min(at, text.size())).starts_with(v.text);
    });
    return found == vulgar.end() ? nullptr : &*found;
}

/// `why` goes on a sentence: "is below zero".
Problem bad_number(std::string_view text, const Text& why, Text hint) {
    return {"bad-number", say("'{}' {}", text, why), std::move(hint), {}, {}};
}

/// A fraction "N/M" at `at`, with the slash a keyboard has or U+2044. Null when there is none.
struct Fraction {
    double value = 0;
    std::size_t end = 0;
    bool usable = false;
};
std::optional<Fraction> fraction_at(std::string_view text, std::size_t at) {
    const std::size_t over = digits_at(text, at);
    if (over == 0) return {};
    std::size_t slash = at + over;
    constexpr std::string_view fraction_slash = "\u2044";
    if (slash < text.size() && text[slash] == '/') {
        slash += 1;
    } else if (text.substr(slash).starts_with(fraction_slash)) {
        slash += fraction_slash.size();
    } else {
        return {};
    }
    const std::size_t under = digits_at(text, slash);
    if (under == 0) return {};
    const std::string_view above = text.substr(at, over);
    const std::string_view below = text.substr(slash, under);
    const bool usable = over <= 4 && under <= 4 && above[0] != '0' && below[0] != '0';
    return Fraction{usable ? to_double(above) / to_double(below) : 0, slash + under, usable};
}

/// The fraction behind a whole number, in figures: of "1 1/2", of "1 \u00BD". One of 1 and more is
/// not usable there.
std::optional<Fraction> fraction_behind(std::string_view text, std::size_t at) {
    if (const Vulgar* v = vulgar_at(text, at)) {
        return Fraction{static_cast<double>(v->over) / v->under, at + v->text.size(), true};
    }
    auto fraction = at < text.size() ? fraction_at(text, at) : std::nullopt;
    if (fraction && fraction->value >= 1) fraction->usable = false;
    return fraction;
}

/// A number that begins with a word: "half", "two", "two and a half"; "a" before a unit.
struct InWords {
    double value = 0;
    std::size_t end = 0;
    bool fraction = false;  ///< of one: "a" or "of a" may follow
};
std::optional<InWords> in_words(std::string_view text) {
    if (const auto part = fraction_words_at(text, 0)) return InWords{part->value, part->end, true};
    if (const auto whole = whole_word_at(text, 0)) {
        const std::size_t next = past_and(text, whole->end);
        if (next == whole->end) return InWords{whole->value, whole->end, false};
        if (const auto more = fraction_words_at(text, next))
            return InWords{whole->value + more->value, more->end, false};
        const auto figures = fraction_behind(text, next);
        if (figures && figures->usable)
            return InWords{whole->value + figures->value, figures->end, false};
        return InWords{whole->value, whole->end, false};
    }
    if (const auto one = article_at(text, 0)) return InWords{one->value, one->end, false};
    return std::nullopt;
}

Problem comma(std::string_view text, std::size_t at) {
    // Only the first comma is looked at: two or more can only be meant as thousands.
    std::string point(text);
    point[at] = '.';
    std::string none(text);
    std::erase(none, ',');
    const std::size_t after = digits_at(text, at + 1);
    const bool more = text.find(',', at + 1) != std::string_view::npos;
    Text hint = say("write {}, with a point", point);
    if (after == 3 && (more || text.find('.') != std::string_view::npos)) {
        hint = say("write {}, without commas", none);
    } else if (after == 3) {
        hint = say("write {} if the comma parts thousands, or {} if it is a decimal comma", none,
                   point);
    }
    return {"decimal-comma", say("'{}' has a comma in its number", text), std::move(hint), {}, {}};
}

/// What can stand between the digits of a number that is not written our way.
std::optional<Problem> wrong_separator(std::string_view text, std::size_t end) {
    const char next = end < text.size() ? text[end] : '\0';
    if (next == ',' && digits_at(text, end + 1) > 0) return comma(text, end);
    // 1 000, 1'000, 1_000
    if ((next == ' ' || next == '\'' || next == '_') && digits_at(text, end + 1) > 0) {
        std::string joined(text.substr(0, end));
        std::size_t at = end;
        while (at < text.size() && text[at] == next && digits_at(text, at + 1) > 0) {
            const std::size_t length = digits_at(text, at + 1);
            joined += text.substr(at + 1, length);
            at += 1 + length;
        }
        joined += text.substr(at);
        if (text.substr(0, end).find_first_not_of("-0123456789") != std::string_view::npos) {
            return bad_number(text, "looks like two numbers", "write one number");
        }
        return bad_number(text, "has its digits in groups",
                          say("write {}, if one number is meant", joined));
    }
    const bool exponent =
        (next == 'e' || next == 'E') && end + 1 < text.size() &&
        (strings::is_digit(text[end + 1]) || text[end + 1] == '-' || text[end + 1] == '+');
    if (exponent) return bad_number(text, "has an exponent", "write the number out in digits");
    if ((next == 'x' || next == 'X') && text.substr(0, end) == "0") {
        return bad_number(text, "is not a decimal number", "write the number in decimal digits");
    }
    if (next == '-' || text.substr(end).starts_with("\u2013")) {
        return bad_number(text, "looks like two numbers",
                          "write one number; a range has no place here");
    }
    if (next == '.' || next == '/') {
        return bad_number(text, "is not a number", "write digits, with one point before decimals");
    }
    return {};
}

}  // namespace

Parsed<Number> read_number(std::string_view text, Sign sign) {
    constexpr std::string_view minus = "\u2212";
    std::size_t begin = 0;
    if (text.starts_with('-')) begin = 1;
    if (text.starts_with(minus)) begin = minus.size();
    const bool below_zero = begin > 0;
    if (below_zero && sign == Sign::positive) {
        return bad_number(text, "is below zero",
                          say("write {} if the minus sign slipped in", text.substr(begin)));
    }
    if (text.starts_with('+')) {
        return bad_number(text, "has a plus sign", say("write {}", text.substr(1)));
    }
    const auto done = [&](double value, std::size_t end) -> Parsed<Number> {
        if (auto problem = wrong_separator(text, end)) return *problem;
        if (value > largest || (value != 0 && value < smallest)) {
            return bad_number(text, "is not a number of a size that makes sense here",
                              "check the number and its unit");
        }
        return Number{below_zero ? -value : value, end};
    };

    const auto fraction = [&](double value, std::size_t end) {
        return done(value, past_article(text, end));
    };
    if (const Vulgar* v = vulgar_at(text, begin)) {
        return fraction(static_cast<double>(v->over) / v->under, begin + v->text.size());
    }
    if (const auto words = below_zero ? std::nullopt : in_words(text)) {
        return words->fraction ? fraction(words->value, words->end)
                               : done(words->value, words->end);
    }
    const std::size_t whole = digits_at(text, begin);
    if (whole == 0) {
        if (begin < text.size() && text[begin] == '.' && digits_at(text, begin + 1) > 0) {
            // A digit may be lost: nothing is offered in its place.
            return bad_number(text, "has no digit before its point",
                              "write the digit before its point, 0 where it is none");
        }
        return bad_number(text, "does not begin with a number", "write a number in digits");
    }
    const std::string_view digits = text.substr(begin, whole);
    if (const auto written = fraction_at(text, begin)) {
        if (!written->usable) {
            return bad_number(text, "has no usable fraction", "write a fraction like 1/4");
        }
        return fraction(written->value, written->end);
    }
    if (whole > 1 && digits[0] == '0') {
        const std::size_t zeros = std::min(digits.find_first_not_of('0'), whole - 1);
        return bad_number(text, "begins with a needless zero",
                          say("write {}{}", text.substr(0, begin), text.substr(begin + zeros)));
    }
    if (whole > maximum_digits)
        return bad_number(text, "has too many digits", "write at most 15 digits");

    std::size_t end = begin + whole;
    if (const Vulgar* v = vulgar_at(text, end)) {
        return done(to_double(digits) + static_cast<double>(v->over) / v->under,
                    end + v->text.size());
    }
    if (end < text.size() && text[end] == ' ') {
        const std::size_t joined = past_and(text, end);
        const std::size_t next = joined != end ? joined : text.find_first_not_of(' ', end);
        const auto more = fraction_behind(text, next);
        if (more && !more->usable) {
            return bad_number(text, "has no usable fraction", "write a number like 1 1/2");
        }
        const auto words = fraction_words_at(text, next);
        if (words && joined == end) {
            return bad_number(text, "looks like two numbers", "write one number");
        }
        if (more) return done(to_double(digits) + more->value, more->end);
        if (words) return done(to_double(digits) + words->value, words->end);
    }
    if (end < text.size() && text[end] == '.') {
        const std::size_t decimals = digits_at(text, end + 1);
        if (decimals == 0) {
            return bad_number(text, "has no digit after its point",
                              "write the digits behind its point, or leave the point out");
        }
        end += 1 + decimals;
    }
    const std::string_view number = text.substr(begin, end - begin);
    // Zeros after the point count too: what is too small to hold would read as 0.
    if (number.size() > 2 * maximum_digits) {
        return bad_number(text, "has too many digits", "write at most 15 digits");
    }
    const std::size_t first = number.find_first_not_of("0.");
    std::size_t significant = 0;
    for (std::size_t i = first; i < number.size(); ++i)
        if (strings::is_digit(number[i])) ++significant;
    if (significant > maximum_digits) {
        return bad_number(text, "has too many digits", "write at most 15 digits");
    }
    return done(to_double(number), end);
}

Parsed<double> parse_number(std::string_view text, Sign sign) {
    if (text.empty()) {
        return Problem{
            "empty-value", "expected a number, got nothing", "write a number in digits", {}, {}};
    }
    const auto parsed = read_number(text, sign);
    if (const auto* problem = std::get_if<Problem>(&parsed)) return *problem;
    const Number& number = std::get<Number>(parsed);
    if (number.end != text.size()) {
        return Problem{"unit-not-wanted",
                       say("'{}' is more than a number", text),
                       strings::is_letter(text[0]) ? say("write the number alone")
                                                   : say("write {}", text.substr(0, number.end)),
                       {},
                       {}};
    }
    return number.value;
}

std::vector<std::string_view> vulgar_fractions() {
    std::vector<std::string_view> all;
    all.reserve(std::size(vulgar));
    for (const Vulgar& v : vulgar) all.push_back(v.text);
    return all;
}

Parsed<int> parse_whole(std::string_view text) {
    const auto word = whole_word_at(text, 0);
    if (word && word->end == text.size()) return static_cast<int>(word->value);
    const auto parsed = parse_number(text);
    if (const auto* problem = std::get_if<Problem>(&parsed)) return *problem;
    if (digits_at(text, 0) != text.size() || text.size() > 9) {
        const double value = std::get<double>(parsed);
        const bool between = value < 1e9 && std::floor(value) != value;
        return bad_number(text, "is not a whole number",
                          between
                              ? say("write {:.0f} or {:.0f}", std::floor(value), std::ceil(value))
                              : say("write a whole number in digits"));
    }
    return static_cast<int>(std::get<double>(parsed));
}

}  // namespace gallipot::units
