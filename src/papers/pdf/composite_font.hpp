#pragma once

#include <array>
#include <cstdint>
#include <hpdf.h>
#include <hpdf_doc.h>
#include <string>
#include <utility>
#include <vector>

#include "papers/pdf/fault.hpp"
#include "papers/pdf/stream.hpp"

namespace gallipot::pdf {

/// A composite font (PDF 32000-1:2008, 9.7) whose codes have two bytes. Lengths in ems.
struct CompositeFont {
    std::string name;  ///< PostScript's
    std::string file;  ///< TrueType, with the glyphs in use
    double ascent = 0, descent = 0, cap_height = 0;
    std::array<double, 4> box{};
    struct Letter {
        std::uint16_t code = 0, glyph = 0;
        double advance = 0;
        std::string text;  ///< UTF-16 in hexadecimal digits
    };
    std::vector<Letter> letters;  ///< by code
};

/// A font that pages can name before it is known which of its letters they use.
class FontObject {
  public:
    FontObject(HPDF_Doc document, const Fault& fault, Compressor& compressor);

    [[nodiscard]] HPDF_Dict object() const { return font_; }
    /// To be called once.
    void fill(const CompositeFont& with);

  private:
    [[nodiscard]] HPDF_Dict add_object();
    void add_stream(HPDF_Dict to, const char* key, const std::string& bytes);
    void describe(const CompositeFont& with, const std::string& name);

    HPDF_Doc document_;
    const Fault& fault_;
    Compressor& compressor_;
    HPDF_Dict font_;
    HPDF_Dict letters_;  ///< the CIDFont below it
};

/// UTF-16 in hexadecimal digits, as PDF writes text in a map or a string.
std::string utf16(std::string_view text);

}  // namespace gallipot::pdf
