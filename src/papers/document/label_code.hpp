#pragma once

#include <string>
#include <string_view>

namespace gallipot::document {

/// A text as a QR code's dense mode can hold it (ISO/IEC 18004, alphanumeric mode): in capitals,
/// characters beyond its set as blanks. A text with letters beyond ASCII is kept as it stands: it
/// could not be read without them.
std::string dense_text(std::string_view text);

}  // namespace gallipot::document
