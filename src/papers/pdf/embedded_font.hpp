#pragma once

#include <bitset>
#include <hpdf.h>
#include <hpdf_doc.h>
#include <memory>
#include <string>
#include <vector>

#include "papers/fonts/fonts.hpp"
#include "papers/pdf/fault.hpp"
#include "papers/pdf/stream.hpp"

namespace gallipot::pdf {

/// One face as a PDF embeds it: a composite font whose character codes are UTF-16 units (PDF
/// 32000-1:2008, 9.7), with the letters in use and no others.
///
/// libharu could load the file itself, but reads 65,536 letters' places for every document to do
/// so, which took nine tenths of the time of a small one; and it writes a malformed map to Unicode.
class EmbeddedFont {
  public:
    EmbeddedFont(HPDF_Doc document, std::shared_ptr<const fonts::Font> font, const Fault& fault,
                 Compressor& compressor);

    /// What pages name in their resources.
    [[nodiscard]] HPDF_Dict object() const { return font_object_; }
    /// Throws std::invalid_argument when the face has no letter for it.
    void use(char32_t character);
    /// Adds the letters used to the document. To be called once, when all pages are drawn.
    void finish();

  private:
    [[nodiscard]] HPDF_Dict add_object();
    void add_stream(HPDF_Dict to, const char* key, const std::string& bytes);
    void add_widths(const std::vector<char32_t>& used);
    void describe(const std::string& name, const std::string& file);

    HPDF_Doc document_;
    std::shared_ptr<const fonts::Font> font_;
    const Fault& fault_;
    Compressor& compressor_;
    HPDF_Dict font_object_;
    HPDF_Dict letters_;  ///< the CIDFont below it
    std::bitset<0x10000> used_;
};

}  // namespace gallipot::pdf
