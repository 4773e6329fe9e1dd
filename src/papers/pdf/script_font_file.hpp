#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>

#include "papers/fonts/script_fonts.hpp"
#include "papers/pdf/composite_font.hpp"

namespace gallipot::pdf {

/// A font of shaped text as a PDF embeds it: a code for each pair of a glyph and the text it stands
/// for, so that text comes out again as it went in.
class ScriptFontFile {
  public:
    ScriptFontFile(HPDF_Doc document, std::shared_ptr<const fonts::ScriptFont> font,
                   const Fault& fault, Compressor& compressor)
        : font_(std::move(font)), object_(document, fault, compressor) {}

    [[nodiscard]] HPDF_Dict object() const { return object_.object(); }
    /// The code of a glyph that stands for this text (UTF-8).
    std::uint16_t code(std::uint16_t glyph, const std::string& text);
    /// To be called once, when all pages are drawn.
    void finish();

  private:
    std::shared_ptr<const fonts::ScriptFont> font_;
    FontObject object_;
    std::map<std::pair<std::uint16_t, std::string>, std::uint16_t> codes_;
};

}  // namespace gallipot::pdf
