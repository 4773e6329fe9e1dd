#pragma once

#include <optional>
#include <string_view>

namespace gallipot::log {

/// A count as somebody types it on a phone.
struct TypedCount {
    int value = 0;
    bool approximate = false;  ///< "~20", "20+": about, or at least, so many
};

/// Digits of any script ("٢٠", "२०"), alone or with "~" before or "+" behind; blanks do not count.
/// 0 to `maximum_counted`, else none.
std::optional<TypedCount> parse_typed_count(std::string_view text);

}  // namespace gallipot::log
