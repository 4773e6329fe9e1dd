#include "base/image/photo.hpp"

#include "base/image/exif.hpp"
#include "base/image/jpeg.hpp"
#include "fuzz.hpp"

/// A file that somebody sends as a photo: what is kept is a JPEG of ours, within bounds.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;

    const std::string file = text_of(data, size);
    const int held = image::orientation(file);
    require(held >= 1 && held <= 8, "an orientation is one of eight");
    const auto cleaned = image::clean_photo(file);
    const auto* photo = std::get_if<std::string>(&cleaned);
    if (photo == nullptr) return 0;
    const auto pixels = image::read_jpeg(*photo, 100'000);
    require(pixels.has_value(), "what is kept can be read");
    require(pixels->width >= 1 && pixels->width <= image::longest_side && pixels->height >= 1 &&
                pixels->height <= image::longest_side,
            "what is kept is no larger than it may be");
    require(photo->find("Exif") == std::string::npos, "what is kept has no metadata");
    require(std::holds_alternative<std::string>(image::small_photo(*photo)),
            "what is kept has a small one");
    return 0;
}
