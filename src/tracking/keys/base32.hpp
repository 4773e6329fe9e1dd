#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

/// Crockford's base 32: digits and capitals without I, L, O and U, so that a key read aloud or off
/// a smudged label is not mistaken (Douglas Crockford, "Base 32", www.crockford.com/base32.html;
/// alphabet read in two encoders' descriptions).
namespace gallipot::keys {

/// The first `characters` x 5 bits of `bytes`, most significant first.
std::string base32(std::span<const std::uint8_t> bytes, std::size_t characters);

/// As a reader may have typed it: small letters, I and L for 1, O for 0, hyphens and spaces
/// between. What is no base-32 digit stays and will not match.
std::string normal(std::string_view typed);

}  // namespace gallipot::keys
