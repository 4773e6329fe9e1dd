#include "tracking/keys/base32.hpp"

#include <stdexcept>

#include "base/strings/ascii.hpp"

namespace gallipot::keys {

namespace {
constexpr std::string_view alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
static_assert(alphabet.size() == 32);
}  // namespace

std::string base32(std::span<const std::uint8_t> bytes, std::size_t characters) {
    if (bytes.size() * 8 < characters * 5) throw std::logic_error("base32: too few bytes");
    std::string text;
    unsigned held = 0;
    int bits = 0;
    for (std::size_t next = 0; text.size() < characters;) {
        if (bits < 5) {
            held = (held << 8 | bytes[next++]) & 0xFFFF;
            bits += 8;
        }
        bits -= 5;
        text += alphabet[held >> bits & 31];
    }
    return text;
}

std::string normal(std::string_view typed) {
    std::string text;
    for (char c : typed) {
        if (c == '-' || c == ' ') continue;
        c = strings::to_upper(c);
        if (c == 'I' || c == 'L') c = '1';
        if (c == 'O') c = '0';
        text += c;
    }
    return text;
}

}  // namespace gallipot::keys
