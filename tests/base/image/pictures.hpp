#pragma once

#include <array>
#include <cstdint>
#include <png.h>
#include <stdexcept>
#include <string>
#include <turbojpeg.h>

#include "base/image/pixels.hpp"

/// Pictures as phones and others make them.
namespace gallipot::tests {

using Colour = std::array<std::uint8_t, 3>;
inline constexpr Colour red{220, 20, 30}, green{20, 200, 40}, blue{20, 40, 210},
    yellow{230, 220, 30};

/// Corners in four colours: top left, top right, bottom left, bottom right.
inline image::Pixels corners(int width, int height,
                             const std::array<Colour, 4>& colours = {red, green, blue, yellow}) {
    image::Pixels pixels = image::Pixels::of(width, height);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const Colour& colour =
                colours.at((y * 2 >= height ? 2U : 0U) + (x * 2 >= width ? 1U : 0U));
            for (std::size_t i = 0; i < 3; ++i) pixels.rgb[pixels.at(x, y) + i] = colour.at(i);
        }
    return pixels;
}

inline std::string jpeg_file(const image::Pixels& pixels, bool progressive = false,
                             int subsampling = TJSAMP_444) {
    void* handle = tjInitCompress();
    unsigned char* made = nullptr;
    unsigned long size = 0;
    const int failed =
        tjCompress2(handle, pixels.rgb.data(), pixels.width, 0, pixels.height, TJPF_RGB, &made,
                    &size, subsampling, 92, progressive ? TJFLAG_PROGRESSIVE : 0);
    const std::string file(reinterpret_cast<char*>(made), size);
    tjFree(made);
    tjDestroy(handle);
    if (failed != 0) throw std::runtime_error("no JPEG");
    return file;
}

inline std::string png_file(const image::Pixels& pixels) {
    png_image image{};
    image.version = PNG_IMAGE_VERSION;
    image.width = static_cast<png_uint_32>(pixels.width);
    image.height = static_cast<png_uint_32>(pixels.height);
    image.format = PNG_FORMAT_RGB;
    png_alloc_size_t size = 0;
    if (png_image_write_to_memory(&image, nullptr, &size, 0, pixels.rgb.data(), 0, nullptr) == 0)
        throw std::runtime_error("no PNG");
    std::string file(size, '\0');
    png_image_write_to_memory(&image, file.data(), &size, 0, pixels.rgb.data(), 0, nullptr);
    file.resize(size);
    return file;
}

/// The head of a PNG of that size, whole; its pixels are missing.
inline std::string png_head(std::uint32_t width, std::uint32_t height) {
    std::string file = png_file(corners(8, 8));
    const auto put = [&](std::size_t at, std::uint32_t value) {
        for (std::size_t i = 0; i < 4; ++i)
            file[at + i] = static_cast<char>(value >> (24 - 8 * i) & 0xFFU);
    };
    put(16, width);
    put(20, height);
    // The checksum of the chunk: CRC-32 as PNG has it (ISO/IEC 15948, annex D).
    std::uint32_t crc = 0xFFFFFFFFU;
    for (std::size_t at = 12; at < 29; ++at) {
        crc ^= static_cast<unsigned char>(file[at]);
        for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1U) ^ ((crc & 1U) != 0 ? 0xEDB88320U : 0U);
    }
    put(29, ~crc);
    return file;
}

inline constexpr const char* owner = "M. Marchbank";  ///< nobody's name
inline constexpr const char* place = "33 51 30.00 S";

/// The file with Exif as a phone writes it: orientation, owner, and a place in a GPS directory.
inline std::string with_exif(const std::string& jpeg, int orientation, bool big_end_first) {
    std::string tiff;
    const auto put = [&](std::uint32_t value, std::size_t size) {
        for (std::size_t i = 0; i < size; ++i)
            tiff += static_cast<char>(value >> (8 * (big_end_first ? size - 1 - i : i)) & 0xFFU);
    };
    const auto entry = [&](std::uint32_t tag, std::uint32_t type, std::uint32_t count,
                           std::uint32_t value, std::size_t size) {
        put(tag, 2);
        put(type, 2);
        put(count, 4);
        put(value, size);
        tiff.append(4 - size, '\0');
    };
    const std::string who = std::string(owner) + '\0';
    const std::string where = std::string(place) + '\0';
    tiff = big_end_first ? "MM" : "II";
    put(42, 2);
    put(8, 4);
    put(3, 2);                                                     // entries of the directory
    entry(274, 3, 1, static_cast<std::uint32_t>(orientation), 2);  // Orientation
    entry(315, 2, static_cast<std::uint32_t>(who.size()), 80, 4);  // Artist
    entry(34853, 4, 1, 50, 4);                                     // the GPS directory
    put(0, 4);
    put(1, 2);
    entry(2, 2, static_cast<std::uint32_t>(where.size()), 100, 4);  // GPSLatitude
    put(0, 4);
    tiff.resize(80, '\0');
    tiff += who;
    tiff.resize(100, '\0');
    tiff += where;
    const std::string content = std::string("Exif\0\0", 6) + tiff;
    const std::size_t length = content.size() + 2;
    return jpeg.substr(0, 2) + "\xFF\xE1" + static_cast<char>(length >> 8U) +
           static_cast<char>(length & 0xFFU) + content + jpeg.substr(2);
}

}  // namespace gallipot::tests
