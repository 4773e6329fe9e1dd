#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gallipot::keys {

/// BLAKE2b (RFC 7693) of `message` under `key`. `length` is 16 to 64 bytes; the key is empty or 16
/// to 64 bytes. Anything else is our bug: throws std::logic_error.
std::vector<std::uint8_t> blake2b(std::size_t length, std::span<const std::uint8_t> key,
                                  std::span<const std::uint8_t> message);

/// SHA-256 (FIPS 180-4) of `text` in base 64 (RFC 4648, padded), as a content security policy has
/// it.
std::string sha256_base64(std::string_view text);

/// The same as 64 small hexadecimal digits, as sha256sum prints it.
std::string sha256_hex(std::string_view text);

}  // namespace gallipot::keys
