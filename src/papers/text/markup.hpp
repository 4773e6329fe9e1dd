#pragma once

#include <string>
#include <string_view>
#include <unicode/unistr.h>

#include "papers/text/catalog.hpp"

namespace gallipot::text {

/// In a message that goes through ICU, <b> and </b> are these two private-use characters, so that
/// a "<b>" in a user's own text stays text.
inline constexpr char16_t bold_begins = 0xE000;
inline constexpr char16_t bold_ends = 0xE001;

icu::UnicodeString with_marks(std::string_view message);

/// A user's text without those two characters: U+FFFD stands for them.
icu::UnicodeString without_marks(std::string_view text);

StyledText split_at_marks(const icu::UnicodeString& text);

/// Adds text to runs, joining what has the same weight; nothing for an empty text.
void append(StyledText& runs, std::string_view text, bool bold);

}  // namespace gallipot::text
