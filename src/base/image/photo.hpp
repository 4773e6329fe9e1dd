#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

/// A photo from somebody else's phone, made into one of ours: read to its last pixel, turned
/// upright, shrunk and written anew, so that nothing that was in the file but the picture is left
/// (no place, no time, no owner, no thumbnail).
namespace gallipot::image {

inline constexpr std::size_t maximum_file = 12u << 20;      ///< bytes
inline constexpr std::int64_t maximum_pixels = 25'000'000;  ///< as its head says; 24 are a phone's
inline constexpr int longest_side = 1600;                   ///< pixels, of what is kept
inline constexpr int longest_small_side = 320;              ///< pixels, of a small one

enum class PhotoFault {
    not_a_photo,      ///< neither JPEG nor PNG
    too_many_bytes,   ///< more than maximum_file
    too_many_pixels,  ///< more than maximum_pixels: it is not read
    damaged           ///< it ends early, or is not what its head says
};

/// A JPEG file with the picture and nothing else, always the same for the same `file`. One at a
/// time is worked on, so that many at once take no more memory than one: some 150 MB at most, for a
/// progressive JPEG of maximum_pixels.
std::variant<std::string, PhotoFault> clean_photo(std::string_view file);

/// The same picture, small, for a list. `photo` is one that clean_photo() made; PhotoFault::damaged
/// where it is not whole.
std::variant<std::string, PhotoFault> small_photo(std::string_view photo);

}  // namespace gallipot::image
