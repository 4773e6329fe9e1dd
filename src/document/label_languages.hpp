#pragma once

#include "document/label.hpp"

namespace gallipot::document {

/// `main` with the words of `second`, the same label in another language, after its own: every
/// part's lines in the one, then in the other; the code and the id stay those of `main`. Lines that
/// say the same in both stand once. `main` itself becomes what to print where there is no room.
Label in_both(const Label& main, const Label& second);

}  // namespace gallipot::document
