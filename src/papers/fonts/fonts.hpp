#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/system/error.hpp"

/// Which font files there are, and what their letters measure.
namespace gallipot::fonts {

/// Thrown when no usable font is found; the message names what to install.
class FontError : public system::SystemError {
  public:
    using SystemError::SystemError;
};

/// How far the ink of a text reaches, in ems above the baseline and below it (downwards positive;
/// negative when all of it floats above, as a hyphen does). Both are 0 for text without ink.
struct Ink {
    double above = 0, below = 0;
};

struct Extent {
    double advance = 0;
    Ink ink;
};

/// A font file cut down to some characters, for a PDF to embed: TrueType outlines without hints,
/// addressed by glyph number alone.
struct Subset {
    std::string bytes;
    std::vector<std::uint16_t> glyphs;  ///< of the characters it was made for, in their order
};

/// One font file, opened for measuring. Immutable, safe to share between threads.
///
/// Text is set letter by letter: no kerning, no ligatures, no shaping. Characters beyond U+FFFF
/// and of scripts that need shaping count as not covered, whatever the file holds, because they
/// would not come out right on paper: they are for a ScriptFont.
class Font {
  public:
    /// Throws FontError when the file cannot be read or is not a TrueType font with a Unicode map.
    explicit Font(const std::string& path);
    /// The same from the file's bytes, when they are read already.
    Font(const std::string& path, std::string bytes);
    ~Font();
    Font(const Font&) = delete;
    Font& operator=(const Font&) = delete;

    [[nodiscard]] const std::string& path() const;
    [[nodiscard]] const std::string& name() const;  ///< its PostScript name: "NotoSans-Bold"
    /// Advance of `text` (UTF-8) in ems, no kerning: the PDF draws it so. A character that is not
    /// covered, or bytes that are not UTF-8, throw std::invalid_argument: ask uncovered() first.
    [[nodiscard]] double advance(std::string_view text) const;
    /// Of one character.
    [[nodiscard]] double advance(char32_t character) const;
    /// The ink of `text`, as its glyphs are drawn. Throws as advance() does.
    [[nodiscard]] Ink ink(std::string_view text) const;
    /// Both at once.
    [[nodiscard]] Extent extent(std::string_view text) const;
    [[nodiscard]] bool covers(char32_t character) const;
    /// All in ems: height of a capital H and of a lowercase x as drawn, and the ascender and
    /// descender (positive) that the file states for its lines.
    [[nodiscard]] double cap_height() const;
    [[nodiscard]] double x_height() const;
    [[nodiscard]] double ascent() const;
    [[nodiscard]] double descent() const;
    /// Around all of its glyphs, in ems: left, bottom, right, top.
    [[nodiscard]] std::array<double, 4> box() const;
    /// Of characters that it covers, each given once. The same characters give the same bytes.
    [[nodiscard]] Subset subset(const std::vector<char32_t>& characters) const;

  private:
    struct Impl;
    std::unique_ptr<const Impl> impl_;
};

class ScriptFonts;

/// The two faces every paper is set in, and what has the letters that they lack.
struct Faces {
    std::shared_ptr<const Font> regular, bold;
    std::shared_ptr<const ScriptFonts> others{};  ///< see script_fonts.hpp; may be null
};

/// Opens the faces that the list at `list_path` (fonts/fonts.yaml) names, from the first folder
/// that holds each: `own_folder` (the user's GALLIPOT_FONTS; empty: none), then the folders of the
/// list. Throws FontError, which says where it looked and what to install.
Faces find(const std::string& list_path, const std::string& own_folder = {},
           std::size_t threads = 1);

/// Every character of `text` (UTF-8) that `font` does not cover, once each, in order. Bytes that
/// are not UTF-8 count as U+FFFD.
std::vector<char32_t> uncovered(const Font& font, std::string_view text);

}  // namespace gallipot::fonts
