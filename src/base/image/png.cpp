#include "base/image/png.hpp"

#include <png.h>

namespace gallipot::image {
namespace {

/// The library's view of one file, from its head to the last row.
class Reader {
  public:
    explicit Reader(std::string_view file) {
        image_.version = PNG_IMAGE_VERSION;
        good_ = png_image_begin_read_from_memory(&image_, file.data(), file.size()) != 0 &&
                image_.width <= longest && image_.height <= longest;
    }
    ~Reader() { png_image_free(&image_); }
    Reader(const Reader&) = delete;
    Reader& operator=(const Reader&) = delete;

    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] int width() const { return static_cast<int>(image_.width); }
    [[nodiscard]] int height() const { return static_cast<int>(image_.height); }

    bool read(Pixels& into) {
        image_.format = PNG_FORMAT_RGB;
        const png_color white{255, 255, 255};
        return png_image_finish_read(&image_, &white, into.rgb.data(), 0, nullptr) != 0;
    }

  private:
    static constexpr png_uint_32 longest = 100'000;  ///< pixels of a side
    png_image image_{};
    bool good_ = false;
};

}  // namespace

bool is_png(std::string_view file) {
    return file.starts_with("\x89PNG\r\n\x1A\n");
}

std::optional<std::int64_t> png_pixels(std::string_view file) {
    const Reader reader(file);
    if (!reader.good()) return std::nullopt;
    return std::int64_t{reader.width()} * reader.height();
}

std::optional<Pixels> read_png(std::string_view file) {
    Reader reader(file);
    if (!reader.good()) return std::nullopt;
    Pixels pixels = Pixels::of(reader.width(), reader.height());
    if (!reader.read(pixels)) return std::nullopt;
    return pixels;
}

}  // namespace gallipot::image
