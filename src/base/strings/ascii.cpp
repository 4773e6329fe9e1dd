#include "base/strings/ascii.hpp"

#include <algorithm>

namespace gallipot::strings {

std::string to_lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = to_lower(c);
    return out;
}

std::string to_upper(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = to_upper(c);
    return out;
}

bool same_letters(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return to_lower(x) == to_lower(y); });
}

std::string_view trimmed(std::string_view text, std::string_view blanks) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

}  // namespace gallipot::strings
