#include "base/image/exif.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>

namespace gallipot::image {
namespace {

constexpr std::string_view exif_begin{"Exif\0\0", 6};

/// A number of `size` bytes at `at`; none where the text ends before.
std::optional<std::uint32_t> number(std::string_view bytes, std::size_t at, std::size_t size,
                                    bool big_end_first) {
    if (at > bytes.size() || bytes.size() - at < size) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
        const auto byte =
            static_cast<unsigned char>(bytes[at + (big_end_first ? i : size - 1 - i)]);
        value = value << 8U | byte;
    }
    return value;
}

/// Of a TIFF header with its first directory, as Exif has it.
int orientation_in_tiff(std::string_view tiff) {
    constexpr std::uint32_t orientation_tag = 274;
    constexpr std::uint32_t short_number = 3;
    constexpr std::size_t entry_size = 12;
    if (!tiff.starts_with("II") && !tiff.starts_with("MM")) return 1;
    const bool big = tiff.starts_with("MM");
    const auto directory = number(tiff, 4, 4, big);
    if (!directory) return 1;
    const auto entries = number(tiff, *directory, 2, big);
    if (!entries) return 1;
    for (std::uint32_t i = 0; i < *entries; ++i) {
        const std::size_t at = std::size_t{*directory} + 2 + i * entry_size;
        const auto tag = number(tiff, at, 2, big);
        if (!tag) return 1;
        if (*tag != orientation_tag || number(tiff, at + 2, 2, big) != short_number) continue;
        const auto value = number(tiff, at + 8, 2, big);
        return value && *value >= 1 && *value <= 8 ? static_cast<int>(*value) : 1;
    }
    return 1;
}

}  // namespace

int orientation(std::string_view jpeg) {
    constexpr std::uint32_t app1 = 0xE1;
    constexpr std::uint32_t start_of_scan = 0xDA;
    // Segment after segment up to the picture itself: FF, kind, length with its own two bytes.
    for (std::size_t at = 2; at + 4 <= jpeg.size();) {
        const auto kind = number(jpeg, at + 1, 1, true);
        const auto length = number(jpeg, at + 2, 2, true);
        if (number(jpeg, at, 1, true) != 0xFF || *kind == start_of_scan || *length < 2) return 1;
        const std::string_view content = jpeg.substr(at + 4, *length - 2);
        if (*kind == app1 && content.starts_with(exif_begin))
            return orientation_in_tiff(content.substr(exif_begin.size()));
        at += 2 + *length;
    }
    return 1;
}

}  // namespace gallipot::image
