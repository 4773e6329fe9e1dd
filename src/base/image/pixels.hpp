#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

/// A picture in memory.
namespace gallipot::image {

/// Rows from the top, each pixel red, green, blue in a byte each.
struct Pixels {
    int width = 0;   ///< pixels
    int height = 0;  ///< pixels
    std::vector<std::uint8_t> rgb;

    static constexpr std::size_t channels = 3;
    [[nodiscard]] std::size_t at(int x, int y) const {
        return (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                static_cast<std::size_t>(x)) *
               channels;
    }
    static Pixels of(int width, int height);
};

/// As it is meant to be looked at. `orientation` is 1 to 8 as Exif has it: which side of the scene
/// the first row and the first column show. Any other stays as it is.
Pixels turned(Pixels from, int orientation);

/// So that neither side is longer than `longest` pixels; each pixel is the mean of those it stands
/// for. A picture that is no larger stays as it is.
Pixels shrunk(Pixels from, int longest);

}  // namespace gallipot::image
