#pragma once

#include <span>
#include <string_view>

namespace gallipot::reference {

/// Everyday names of one pest in English, Spanish, German, Filipino and Ukrainian, from memory.
struct PestNames {
    std::string_view pest;     ///< by its name in the table of pests
    std::string_view phrases;  ///< lower case, parted by "|"; each one or more words
    /// German words that may also be the last part of a longer one: "ameisen" in "Gartenameisen".
    std::string_view compounds;
};

std::span<const PestNames> pest_names();

}  // namespace gallipot::reference
