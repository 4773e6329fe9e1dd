#pragma once

#include <bitset>
#include <map>
#include <memory>
#include <string>
#include <utility>

#include "papers/fonts/fonts.hpp"
#include "papers/pdf/composite_font.hpp"

namespace gallipot::pdf {

/// One face as a PDF embeds it: a composite font whose character codes are UTF-16 units, with the
/// letters in use and no others.
///
/// libharu could load the file itself, but reads 65,536 letters' places for every document to do
/// so, which took nine tenths of the time of a small one; and it writes a malformed map to Unicode.
class EmbeddedFont {
  public:
    EmbeddedFont(HPDF_Doc document, std::shared_ptr<const fonts::Font> font, const Fault& fault,
                 Compressor& compressor)
        : font_(std::move(font)), object_(document, fault, compressor) {}

    /// What pages name in their resources.
    [[nodiscard]] HPDF_Dict object() const { return object_.object(); }
    /// Throws std::invalid_argument when the face has no letter for it.
    void use(char32_t character);
    /// The code of a letter that is drawn and reads as another text.
    std::uint16_t use_as(char32_t drawn, const std::string& read);
    /// Adds the letters used to the document. To be called once, when all pages are drawn.
    void finish();

  private:
    std::shared_ptr<const fonts::Font> font_;
    FontObject object_;
    std::bitset<0x10000> used_;
    std::map<std::uint16_t, std::pair<char32_t, std::string>> read_as_;  ///< by code
};

}  // namespace gallipot::pdf
