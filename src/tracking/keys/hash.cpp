#include "tracking/keys/hash.hpp"

#include <array>
#include <sodium.h>
#include <stdexcept>

namespace gallipot::keys {

std::vector<std::uint8_t> blake2b(std::size_t length, std::span<const std::uint8_t> key,
                                  std::span<const std::uint8_t> message) {
    if (sodium_init() < 0) throw std::logic_error("libsodium does not start");
    const bool keyed = !key.empty();
    if (length < crypto_generichash_BYTES_MIN || length > crypto_generichash_BYTES_MAX ||
        (keyed && (key.size() < crypto_generichash_KEYBYTES_MIN ||
                   key.size() > crypto_generichash_KEYBYTES_MAX)))
        throw std::logic_error("blake2b: length out of range");
    std::vector<std::uint8_t> digest(length);
    crypto_generichash(digest.data(), digest.size(), message.data(), message.size(),
                       keyed ? key.data() : nullptr, key.size());
    return digest;
}

namespace {

using Digest = std::array<std::uint8_t, crypto_hash_sha256_BYTES>;

Digest sha256(std::string_view text) {
    Digest digest{};
    crypto_hash_sha256(digest.data(), reinterpret_cast<const unsigned char*>(text.data()),
                       text.size());
    return digest;
}

}  // namespace

std::string sha256_base64(std::string_view text) {
    const Digest digest = sha256(text);
    constexpr auto variant = sodium_base64_VARIANT_ORIGINAL;
    std::array<char, sodium_base64_ENCODED_LEN(crypto_hash_sha256_BYTES, variant)> encoded{};
    sodium_bin2base64(encoded.data(), encoded.size(), digest.data(), digest.size(), variant);
    return encoded.data();
}

std::string sha256_hex(std::string_view text) {
    const Digest digest = sha256(text);
    std::array<char, 2 * crypto_hash_sha256_BYTES + 1> encoded{};
    sodium_bin2hex(encoded.data(), encoded.size(), digest.data(), digest.size());
    return encoded.data();
}

}  // namespace gallipot::keys
