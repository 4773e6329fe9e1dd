#include "base/diag/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fmt/format.h>

namespace gallipot::diag {

namespace {

struct Span {
    char32_t first, last;
};

template <std::size_t N>
bool within(const std::array<Span, N>& spans, char32_t code) {
    return std::any_of(spans.begin(), spans.end(),
                       [&](Span s) { return s.first <= code && code <= s.last; });
}

// The main blocks of Unicode's East_Asian_Width W and F and of its nonspacing marks; from memory,
// enough to put a caret under the right letter.
constexpr std::array<Span, 14> wide = {{{0x1100, 0x115F},
                                        {0x2E80, 0x303E},
                                        {0x3041, 0x33FF},
                                        {0x3400, 0x4DBF},
                                        {0x4E00, 0x9FFF},
                                        {0xA000, 0xA4CF},
                                        {0xA960, 0xA97F},
                                        {0xAC00, 0xD7A3},
                                        {0xF900, 0xFAFF},
                                        {0xFE30, 0xFE6F},
                                        {0xFF00, 0xFF60},
                                        {0xFFE0, 0xFFE6},
                                        {0x1F300, 0x1FAFF},
                                        {0x20000, 0x3FFFD}}};
constexpr std::array<Span, 16> no_width = {{{0x0300, 0x036F},
                                            {0x0483, 0x0489},
                                            {0x0591, 0x05BD},
                                            {0x0610, 0x061A},
                                            {0x064B, 0x065F},
                                            {0x06D6, 0x06DC},
                                            {0x093C, 0x093C},
                                            {0x0941, 0x0948},
                                            {0x094D, 0x094D},
                                            {0x0E31, 0x0E31},
                                            {0x0E34, 0x0E3A},
                                            {0x0E47, 0x0E4E},
                                            {0x200B, 0x200D},
                                            {0x20D0, 0x20F0},
                                            {0xFE00, 0xFE0F},
                                            {0xFE20, 0xFE2F}}};

}  // namespace

Character decoded_at(std::string_view text, std::size_t offset) {
    const auto byte = [&](std::size_t i) -> std::uint32_t {
        return offset + i < text.size() ? static_cast<unsigned char>(text[offset + i]) : 0u;
    };
    const std::uint32_t first = byte(0);
    std::size_t length = 0;
    std::uint32_t code = 0;
    std::uint32_t smallest = 0;
    if (first >= 0xC2 && first <= 0xDF) {
        length = 2, code = first & 0x1F, smallest = 0x80;
    } else if (first >= 0xE0 && first <= 0xEF) {
        length = 3, code = first & 0x0F, smallest = 0x800;
    } else if (first >= 0xF0 && first <= 0xF4) {
        length = 4, code = first & 0x07, smallest = 0x10000;
    } else {
        return {first, 1, false};
    }
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0) != 0x80) return {first, 1, false};
        code = code << 6 | (byte(i) & 0x3F);
    }
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < smallest || code > 0x10FFFF || surrogate) return {first, 1, false};
    return {code, length, true};
}

std::size_t count_characters(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < text.size(); i += character_at(text, i).bytes) ++count;
    return count;
}

bool is_control(char32_t code) {
    return code < 0x20 || (code >= 0x7F && code <= 0x9F);
}

bool is_direction_control(char32_t code) {
    return code == 0x061C || code == 0x200E || code == 0x200F || code == 0x2028 || code == 0x2029 ||
           (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

int display_width(char32_t code) {
    if (code < 0x300) return 1;
    if (within(no_width, code)) return 0;
    return within(wide, code) ? 2 : 1;
}

void append_printable(std::string& to, std::string_view text, const Character& character,
                      std::size_t offset) {
    if (character.code == U'\t')
        to += ' ';
    else if (character.code == 0x2068 || character.code == 0x2069)
        return;  // isolates of our own: nothing is lost without them on a terminal
    else if (!character.valid || is_control(character.code) || is_direction_control(character.code))
        to += "\xEF\xBF\xBD";
    else
        to += text.substr(offset, character.bytes);
}

std::string printable(std::string_view text, std::size_t longest) {
    std::string result;
    std::size_t count = 0;
    for (std::size_t i = 0; i < text.size();) {
        if (++count > longest) return result += "...";
        const Character character = character_at(text, i);
        append_printable(result, text, character, i);
        i += character.bytes;
    }
    return result;
}

std::string printable_lines(std::string_view text) {
    std::string result;
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        if (character.code == U'\n')
            result += '\n';
        else
            append_printable(result, text, character, i);
        i += character.bytes;
    }
    return result;
}

std::string quoted(std::string_view name) {
    return "'" + printable(name) + "'";
}

std::string utf8(char32_t code) {
    const auto tail = [code](int shift) {
        return static_cast<char>(0x80 | (code >> shift & 0x3F));
    };
    if (code < 0x80) return {static_cast<char>(code)};
    if (code < 0x800) return {static_cast<char>(0xC0 | code >> 6), tail(0)};
    if (code < 0x10000) return {static_cast<char>(0xE0 | code >> 12), tail(6), tail(0)};
    return {static_cast<char>(0xF0 | code >> 18), tail(12), tail(6), tail(0)};
}

std::string code_point_name(char32_t code) {
    return fmt::format("U+{:04X}", static_cast<std::uint32_t>(code));
}

std::string for_shell(const std::string& file) {
    const std::string name = printable(file);
    constexpr std::string_view harmless =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./:+,%@";
    // Letters beyond ASCII mean nothing to a shell.
    const bool plain = std::all_of(name.begin(), name.end(), [&](char c) {
        return static_cast<unsigned char>(c) >= 0x80 || harmless.find(c) != std::string_view::npos;
    });
    if (plain && !name.empty()) return name;
    std::string out = "'";
    for (const char c : name) {
        if (c == '\'') {
            out += "'\\''";
        } else {
            out += c;
        }
    }
    return out + '\'';
}

}  // namespace gallipot::diag
