#include "base/image/photo.hpp"

#include <mutex>
#include <optional>

#include "base/image/exif.hpp"
#include "base/image/jpeg.hpp"
#include "base/image/png.hpp"

namespace gallipot::image {
namespace {

/// Enough that writing on a label can be read; some 300 kB (our own choice).
constexpr int quality = 80;
constexpr int small_quality = 70;

std::mutex& one_at_a_time() {
    static std::mutex mutex;
    return mutex;
}

}  // namespace

std::variant<std::string, PhotoFault> clean_photo(std::string_view file) {
    if (file.size() > maximum_file) return PhotoFault::too_many_bytes;
    const bool jpeg = is_jpeg(file);
    if (!jpeg && !is_png(file)) return PhotoFault::not_a_photo;
    const std::lock_guard lock(one_at_a_time());
    const auto count = jpeg ? jpeg_pixels(file) : png_pixels(file);
    if (!count || *count < 1) return PhotoFault::damaged;
    if (*count > maximum_pixels) return PhotoFault::too_many_pixels;
    auto pixels = jpeg ? read_jpeg(file, longest_side) : read_png(file);
    if (!pixels) return PhotoFault::damaged;
    *pixels = shrunk(*std::move(pixels), longest_side);
    if (jpeg) *pixels = turned(*std::move(pixels), orientation(file));
    return write_jpeg(*pixels, quality);
}

std::variant<std::string, PhotoFault> small_photo(std::string_view photo) {
    const std::lock_guard lock(one_at_a_time());
    auto pixels = is_jpeg(photo) ? read_jpeg(photo, longest_small_side) : std::nullopt;
    if (!pixels) return PhotoFault::damaged;
    return write_jpeg(shrunk(*std::move(pixels), longest_small_side), small_quality);
}

}  // namespace gallipot::image
