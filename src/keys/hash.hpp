#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace gallipot::keys {

/// BLAKE2b (RFC 7693) of `message` under `key`. `length` is 16 to 64 bytes; the key is empty or 16
/// to 64 bytes. Anything else is our bug: throws std::logic_error.
std::vector<std::uint8_t> blake2b(std::size_t length, std::span<const std::uint8_t> key,
                                  std::span<const std::uint8_t> message);

}  // namespace gallipot::keys
