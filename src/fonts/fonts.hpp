#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

/// Which font files there are, and what their letters measure.
namespace gallipot::fonts {

/// Thrown when no usable font is found; the message names what to install.
struct FontError {
    std::string message;
};

/// One font file, opened for measuring. Immutable, safe to share between threads.
class Font {
  public:
    /// Throws FontError when the file cannot be read or is not a usable font.
    explicit Font(const std::string& path);
    ~Font();
    Font(const Font&) = delete;
    Font& operator=(const Font&) = delete;

    [[nodiscard]] const std::string& path() const;
    /// Advance of `text` (UTF-8) in ems, no kerning: the PDF draws it so.
    [[nodiscard]] double advance(std::string_view text) const;
    [[nodiscard]] bool covers(char32_t character) const;
    /// All in ems: height of a capital H, of a lowercase x, ascender, and descender (positive).
    [[nodiscard]] double cap_height() const;
    [[nodiscard]] double x_height() const;
    [[nodiscard]] double ascent() const;
    [[nodiscard]] double descent() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// The two faces every paper is set in.
struct Faces {
    std::shared_ptr<const Font> regular, bold;
};

/// Finds the faces listed in `list` (fonts/fonts.yaml) in the system's font folders, and in
/// GALLIPOT_FONTS if that is set. Throws FontError.
Faces find(const std::string& list_path);

/// Every character of `text` that `font` does not cover, once each, in order.
std::vector<char32_t> uncovered(const Font& font, std::string_view text);

}  // namespace gallipot::fonts
