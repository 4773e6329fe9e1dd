#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// What the program needs to know of UTF-8 and of characters that must not reach a terminal.
namespace gallipot::diag {

/// One character of a text. `valid` is false for a byte that begins no well-formed sequence
/// (overlong forms, surrogates and values above U+10FFFF included); then `bytes` is 1.
struct Character {
    char32_t code = 0;
    std::size_t bytes = 1;
    bool valid = true;
};

/// One that is not ASCII, or no character; character_at() asks for it.
Character decoded_at(std::string_view text, std::size_t offset);

/// The character at byte `offset`, which must lie inside `text`.
inline Character character_at(std::string_view text, std::size_t offset) {
    const auto first = static_cast<unsigned char>(text[offset]);
    return first < 0x80 ? Character{first, 1, true} : decoded_at(text, offset);
}

/// How many characters `text` has; an invalid byte counts as one.
std::size_t count_characters(std::string_view text);

/// C0 and C1 controls and DEL; tab and line feed too.
bool is_control(char32_t code);

/// Characters that change the direction of the text around them, so that a file reads differently
/// from what it says (Unicode Bidi_Control), and the two Unicode line separators.
bool is_direction_control(char32_t code);

/// `text` with nothing in it that could drive a terminal or turn the text around it: such
/// characters and bytes that are none become U+FFFD, tabs a space. At most `longest` characters,
/// then "...".
std::string printable(std::string_view text, std::size_t longest = std::string_view::npos);
/// The same without end, line feeds kept.
std::string printable_lines(std::string_view text);
/// One character at `offset` of `text`, made printable likewise.
void append_printable(std::string& to, std::string_view text, const Character& character,
                      std::size_t offset);

/// A file's name in a message: printable, between single quotes.
std::string quoted(std::string_view name);

/// Columns a terminal uses for it: 0, 1 or 2.
int display_width(char32_t code);

/// A character as a text; not for surrogates, which are none.
std::string utf8(char32_t code);

/// "U+202E".
std::string code_point_name(char32_t code);

/// A file's name as a shell takes it: between single quotes where it must be, and printable.
std::string for_shell(const std::string& name);

}  // namespace gallipot::diag
