#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "papers/fonts/fonts.hpp"

/// Fonts of the scripts that the two faces have no letters of: their text is shaped, letters
/// joined, reordered and stacked as the script asks.
namespace gallipot::fonts {

/// Lengths in ems, from the left end of the baseline of its text.
struct PlacedGlyph {
    std::uint16_t id = 0;
    double x = 0, y = 0;
    std::string text;  ///< UTF-8; what of its cluster it stands for, may be none
};

/// Letters that are drawn as one: a syllable, a ligature, a letter with its marks.
struct Cluster {
    std::string text;  ///< UTF-8
    std::vector<PlacedGlyph> glyphs;
};

class ScriptFont;

/// A text of one font and direction, shaped.
struct Shaped {
    std::shared_ptr<const ScriptFont> font;
    std::vector<Cluster> clusters;  ///< as they are read, whatever their direction
    double advance = 0;
    Ink ink;
    double stroke = 0;  ///< ems: outlines drawn with a line so wide, for want of a bold font
};

/// One file, opened for shaping. Safe to share between threads.
class ScriptFont : public std::enable_shared_from_this<ScriptFont> {
  public:
    /// Throws FontError when it is not a whole TrueType font.
    ScriptFont(const std::string& path, std::string bytes);
    ~ScriptFont();
    ScriptFont(const ScriptFont&) = delete;
    ScriptFont& operator=(const ScriptFont&) = delete;

    [[nodiscard]] const std::string& path() const;
    [[nodiscard]] const std::string& name() const;  ///< its PostScript name
    [[nodiscard]] bool covers(char32_t character) const;
    [[nodiscard]] bool is_bold() const;
    /// Of characters that it covers, of one direction.
    [[nodiscard]] Shaped shape(std::string_view text, const std::string& language,
                               bool right_to_left) const;
    [[nodiscard]] double advance(std::uint16_t glyph) const;  ///< in ems
    [[nodiscard]] double ascent() const;
    [[nodiscard]] double descent() const;
    [[nodiscard]] std::array<double, 4> box()
        const;  ///< around all glyphs: left, bottom, right, top
    /// Of glyphs, each given once: their numbers in the smaller file, in the same order.
    [[nodiscard]] Subset subset(const std::vector<std::uint16_t>& glyphs) const;

  private:
    struct Impl;
    std::unique_ptr<const Impl> impl_;
};

/// A script and the files that have its letters.
struct ScriptFiles {
    std::string script;  ///< its name in Unicode: "Arabic"
    std::string regular, bold;
    std::string package;  ///< that holds them on Debian
};

/// The fonts of other scripts, each opened when its first letter is met.
class ScriptFonts {
  public:
    ScriptFonts(std::vector<ScriptFiles> files, std::vector<std::string> folders);
    ~ScriptFonts();
    ScriptFonts(const ScriptFonts&) = delete;
    ScriptFonts& operator=(const ScriptFonts&) = delete;

    /// The font that has this letter; none where its script has none here, or none is installed.
    /// Throws FontError for a damaged one.
    [[nodiscard]] std::shared_ptr<const ScriptFont> find(char32_t character, bool bold) const;
    /// The script of a letter, and the package that would bring its font; empty: nobody knows one.
    [[nodiscard]] std::string package_for(char32_t character) const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// The name of a letter's script in Unicode: "Arabic".
std::string script_of(char32_t character);

/// Letters of no script of their own, and marks, that go with the letters before them.
bool goes_with_script(char32_t character);

}  // namespace gallipot::fonts
