#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

/// Two programs of other hands that read codes from pictures and know nothing of each other.
namespace gallipot::tests {

/// A grey picture, row by row.
struct Image {
    int width = 0, height = 0;
    std::vector<std::uint8_t> grey;

    Image(int w, int h)
        : width(w), height(h), grey(static_cast<std::size_t>(w) * static_cast<std::size_t>(h)) {}
    std::uint8_t& at(int x, int y) {
        return grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                    static_cast<std::size_t>(x)];
    }
};

/// What every QR code of the picture holds.
std::multiset<std::string> read_by_zbar(const Image& image);

/// What one QR code of the picture holds: this version of ZXing reads one. Empty when it finds
/// none.
std::string read_by_zxing(const Image& image);

}  // namespace gallipot::tests
