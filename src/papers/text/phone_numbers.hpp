#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gallipot::text {

/// "tel:" and the digits of a number as people write it, with the plus of one from abroad.
std::string phone_link(std::string_view number);

/// A telephone number in a text.
struct FoundPhone {
    std::size_t at = 0;      ///< bytes before it
    std::string_view words;  ///< of the text
};

/// Wherever one of these numbers stands in a text on one line (see unbroken()), in order. What only
/// has the same digits inside a longer number is none.
std::vector<FoundPhone> phones_in(std::string_view text, const std::vector<std::string>& numbers);

}  // namespace gallipot::text
