#pragma once

#include <cstdint>
#include <string_view>
#include <type_traits>

namespace gallipot::strings {

/// The 64-bit FNV-1a hash, taken character by character: it tells texts
/// apart and guards no secret.
template <class Character>
constexpr std::uint64_t fnv1a(std::basic_string_view<Character> text) {
    std::uint64_t hash = 14695981039346656037u;
    for (const Character c : text)
        hash = (hash ^ static_cast<std::make_unsigned_t<Character>>(c)) * 1099511628211u;
    return hash;
}

}  // namespace gallipot::strings
