#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include "base/image/pixels.hpp"

/// PNG files, by libpng's simplified interface, which returns errors and jumps over nothing of
/// ours.
namespace gallipot::image {

bool is_png(std::string_view file);

/// How many pixels the file says it has; none where its head cannot be read.
std::optional<std::int64_t> png_pixels(std::string_view file);

/// None for a file with any fault. What is see-through shows white.
std::optional<Pixels> read_png(std::string_view file);

}  // namespace gallipot::image
