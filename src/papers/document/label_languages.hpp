#pragma once

#include "papers/document/label.hpp"

namespace gallipot::document {

/// `main` with the words of `second`, the same label in another language, after its own: every
/// part's lines in the one, then in the other. Lines that say the same in both stand once. `main`
/// itself becomes what to print where there is no room.
std::shared_ptr<const LabelBody> in_both(std::shared_ptr<const LabelBody> main,
                                         const LabelBody& second);

}  // namespace gallipot::document
