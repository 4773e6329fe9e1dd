#pragma once

#include <optional>
#include <string>
#include <string_view>

/// Letters, digits and blanks of ASCII, whatever the locale. Every other byte stays as it is, so
/// UTF-8 passes through unharmed.
namespace gallipot::strings {

constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
constexpr bool is_lower(char c) {
    return c >= 'a' && c <= 'z';
}
constexpr bool is_upper(char c) {
    return c >= 'A' && c <= 'Z';
}
constexpr bool is_letter(char c) {
    return is_lower(c) || is_upper(c);
}
constexpr bool is_letter_or_digit(char c) {
    return is_letter(c) || is_digit(c);
}

constexpr char to_lower(char c) {
    return is_upper(c) ? static_cast<char>(c - 'A' + 'a') : c;
}
constexpr char to_upper(char c) {
    return is_lower(c) ? static_cast<char>(c - 'a' + 'A') : c;
}
std::string to_lower(std::string_view text);
std::string to_upper(std::string_view text);
/// Whether they differ in the case of letters alone.
bool same_letters(std::string_view a, std::string_view b);

/// Without the `blanks` at both ends.
std::string_view trimmed(std::string_view text, std::string_view blanks = " ");

/// 0 to 15 for a hexadecimal digit of either case.
constexpr std::optional<int> hex_digit(char c) {
    if (is_digit(c)) return c - '0';
    const char lower = to_lower(c);
    if (lower >= 'a' && lower <= 'f') return lower - 'a' + 10;
    return std::nullopt;
}

}  // namespace gallipot::strings
