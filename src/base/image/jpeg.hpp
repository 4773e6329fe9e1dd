#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/image/pixels.hpp"

/// JPEG files, by libjpeg-turbo. Its TurboJPEG interface returns errors as numbers: no long jump
/// crosses code of ours.
namespace gallipot::image {

bool is_jpeg(std::string_view file);

/// How many pixels the file says it has; none where its head cannot be read.
std::optional<std::int64_t> jpeg_pixels(std::string_view file);

/// None for a file with any fault: one that ends early too. A picture with a side longer than
/// `longest` is read at the least of the library's scales that is not below that.
std::optional<Pixels> read_jpeg(std::string_view file, int longest);

/// Holds the picture and nothing else. `quality` is 1 to 100. Throws std::bad_alloc.
std::string write_jpeg(const Pixels& pixels, int quality);

}  // namespace gallipot::image
