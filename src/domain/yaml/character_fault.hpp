#pragma once

#include <optional>

#include "base/diag/utf8.hpp"
#include "domain/yaml/error_text.hpp"

namespace gallipot::yaml {

/// A character that no text file of a job may hold.
struct CharacterFault {
    ErrorText text;
    bool ends_reading = false;  ///< nothing behind it can be relied on
};

/// What is wrong with a character, line feeds and tabs left out: bytes that are not UTF-8, NUL and
/// other control characters, a byte-order mark, and characters that change the direction of text.
std::optional<CharacterFault> fault_of(const diag::Character& character);

}  // namespace gallipot::yaml
