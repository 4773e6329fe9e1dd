#pragma once

#include "papers/document/words.hpp"

namespace gallipot::document {

/// What was asked for, in both forms, and what it comes to as really measured: with its spread, its
/// limit, and what is usual against the pest. Empty when the mix has nothing to be strong in.
text::StyledText strength_words(const Recipe& recipe);

}  // namespace gallipot::document
