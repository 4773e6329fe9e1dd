#include "base/units/pattern.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <vector>

#include "base/units/number_words.hpp"

namespace gallipot::units {

namespace {

constexpr std::string_view whole = "(?:0|[1-9][0-9]{0,14})";
constexpr std::string_view written_fraction = "[1-9][0-9]{0,3}(?:/|\u2044)[1-9][0-9]{0,3}";

std::string vulgar() {
    return fmt::format("(?:{})", fmt::join(vulgar_fractions(), "|"));
}

std::string_view minus(Sign sign) {
    return sign == Sign::any ? "(?:-|\u2212)?" : "";
}

/// The characters of unit names that mean something else in a pattern.
std::string escaped(const std::string& name) {
    std::string out;
    for (const char c : name) {
        if (c == '.' || c == '(' || c == ')' || c == '+' || c == '*' || c == '^' || c == '$') {
            out += '\\';
        }
        out += c;
    }
    return out;
}

}  // namespace

std::string fraction_pattern(Sign sign) {
    const std::string part = fmt::format("(?:{}|{})", vulgar(), written_fraction);
    // Behind "and" the part may be in words too.
    const std::string joined =
        fmt::format("{}(?:{}|{})", past_and_pattern, part, fraction_words_pattern());
    const std::string figures = fmt::format("{}(?:{}{}|{}(?:{}| +{}|{}))", minus(sign), part,
                                            past_article_pattern, whole, vulgar(), part, joined);
    const std::string words =
        fmt::format("{}{}|{}(?:{})?|{}", fraction_words_pattern(), past_article_pattern,
                    whole_words_pattern(), joined, article_pattern);
    return fmt::format("(?:{}|{})", figures, words);
}

std::string whole_word_pattern() {
    return whole_words_pattern();
}

std::string number_pattern(Sign sign) {
    return fmt::format("(?:{}|{}{}(?:\\.[0-9]+)?)", fraction_pattern(sign), minus(sign), whole);
}

std::string quantity_pattern(Dimension dimension) {
    std::vector<std::string> names;
    for (const std::string& name : unit_names(dimension)) names.push_back(escaped(name));
    // Longest first, for engines that take the first alternative that fits.
    std::stable_sort(names.begin(), names.end(), [](const std::string& a, const std::string& b) {
        return a.size() > b.size();
    });
    const Sign sign = dimension == Dimension::temperature ? Sign::any : Sign::positive;
    return fmt::format(" *{} *(?:{}) *", number_pattern(sign), fmt::join(names, "|"));
}

}  // namespace gallipot::units
