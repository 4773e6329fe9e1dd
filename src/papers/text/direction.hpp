#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

/// Which way text runs (Unicode Standard Annex 9).
namespace gallipot::text {

/// Whether any letter of it is written from right to left.
bool has_right_to_left(std::string_view text);

/// A stretch of a line that runs one way.
struct DirectionRun {
    std::size_t begin = 0, end = 0;  ///< bytes
    bool right_to_left = false;
};

/// The stretches of a line as they stand from left to right, in a paragraph that runs from left to
/// right or, `right_to_left`, the other way.
std::vector<DirectionRun> visual_runs(std::string_view line, bool right_to_left);

/// The letter as it is drawn in text from right to left: a closing bracket for an opening one.
char32_t mirrored(char32_t character);

}  // namespace gallipot::text
