#include "tracking/log/typed_count.hpp"

#include <unicode/uchar.h>

#include "base/diag/utf8.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::log {
namespace {

/// "~", "≈", "∼" and the wide "～" of East Asian keyboards.
bool means_about(char32_t code) {
    return code == U'~' || code == U'\u2248' || code == U'\u223C' || code == U'\uFF5E';
}

/// "+" and the wide "＋".
bool means_at_least(char32_t code) {
    return code == U'+' || code == U'\uFF0B';
}

}  // namespace

std::optional<TypedCount> parse_typed_count(std::string_view text) {
    TypedCount count;
    int digits = 0;
    bool ended = false;  // by the "+" behind the digits
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        if (!character.valid) return std::nullopt;
        at += character.bytes;
        const auto code = static_cast<UChar32>(character.code);
        if (u_isUWhiteSpace(code) != 0) {
            if (digits > 0) ended = true;
            continue;
        }
        const int digit = u_charDigitValue(code);
        if (digit >= 0 && !ended) {
            ++digits;
            count.value = count.value * 10 + digit;
            if (count.value > maximum_counted) return std::nullopt;
        } else if (means_about(character.code) && digits == 0 && !count.approximate) {
            count.approximate = true;
        } else if (means_at_least(character.code) && digits > 0 && !count.approximate) {
            count.approximate = ended = true;
        } else {
            return std::nullopt;
        }
    }
    if (digits == 0) return std::nullopt;
    return count;
}

}  // namespace gallipot::log
