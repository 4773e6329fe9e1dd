#pragma once

#include <string>

#include "papers/document/content.hpp"

namespace gallipot::document {

/// A document as plain text: for golden tests and for eyes. Bold stands between asterisks, a
/// no-break space is shown as "~", a box to tick as "[ ]", cells are parted by "|".
std::string plain_text(const Document& document);
std::string plain_text(const Sheet& sheet);
/// Words as they stand in there.
std::string as_shown(std::string text);

}  // namespace gallipot::document
