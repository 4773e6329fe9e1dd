#pragma once

#include "papers/document/label.hpp"

namespace gallipot::document {

/// `main` with the words of `second`, the same label in another language, after its own: every
/// part's lines in the one, then in the other. Lines that say the same in both stand once.
std::shared_ptr<const LabelBody> in_both(const LabelBody& main, const LabelBody& second);

}  // namespace gallipot::document
