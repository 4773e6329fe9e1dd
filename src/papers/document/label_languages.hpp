#pragma once

#include "papers/document/label.hpp"

namespace gallipot::document {

/// `main` with the words of `second`, the same label in another language, after its own: every
/// part's lines in the one, then in the other. Lines that say the same in both stand once.
std::shared_ptr<const LabelBody> in_both(const LabelBody& main, const LabelBody& second);

/// The same line, marked as being in that language (BCP 47).
text::StyledText in_language(text::StyledText line, const std::string& language);

}  // namespace gallipot::document
