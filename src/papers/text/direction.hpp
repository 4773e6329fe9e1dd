#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Which way text runs (Unicode Standard Annex 9).
namespace gallipot::text {

/// Whether any letter of it is written from right to left.
bool has_right_to_left(std::string_view text);

/// Whether the language (BCP 47) is written from right to left.
bool runs_right_to_left(const std::string& language);

/// A stretch of a line that runs one way.
struct DirectionRun {
    std::size_t begin = 0, end = 0;  ///< bytes
    bool right_to_left = false;
};

/// The stretches of a line as they stand from left to right. The line is the bytes from `begin` to
/// before `end` of a paragraph that runs from left to right or, `right_to_left`, the other way.
std::vector<DirectionRun> visual_runs(std::string_view paragraph, std::size_t begin,
                                      std::size_t end, bool right_to_left);

/// The two characters that keep a text from turning round what stands beside it: without them a
/// telephone number behind an Arabic name is drawn with its groups the other way round.
inline constexpr char32_t right_to_left_isolate = 0x2067, first_strong_isolate = 0x2068,
                          pop_isolate = 0x2069;
inline bool is_isolate(char32_t character) {
    return character >= right_to_left_isolate && character <= pop_isolate;
}
/// `text` between such, where it has letters written from right to left or goes `among` such; else
/// as it is. It runs as its first letter does; but what is made `among` such of pieces that have
/// isolates of their own runs as the language: nothing between the pieces says which way. A plain
/// figure needs none, and "1:50" would fall apart.
std::string isolated(const std::string& text, bool among);
bool has_isolates(std::string_view text);
/// Without them.
std::string without_isolates(std::string text);

/// The letter as it is drawn in text from right to left: a closing bracket for an opening one.
char32_t mirrored(char32_t character);

}  // namespace gallipot::text
