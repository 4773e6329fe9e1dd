#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "papers/fonts/script_fonts.hpp"
#include "papers/layout/page.hpp"

namespace gallipot::pdf {

/// Hears of what a drawing uses, so that the file can hold it.
class Uses {
  public:
    virtual ~Uses() = default;
    /// Every character that is set in a face.
    virtual void letter(layout::Face face, char32_t character) = 0;
    /// A bracket that is drawn and reads as the other one of its pair: its code in the face.
    virtual std::uint16_t turned(layout::Face face, char32_t drawn, const std::string& read) = 0;
    /// A glyph of a font beside the faces, for this text: the font's name in the resources, and the
    /// glyph's code in it.
    struct Code {
        std::string font;
        std::uint16_t code = 0;
    };
    virtual Code glyph(const std::shared_ptr<const fonts::ScriptFont>& font, std::uint16_t id,
                       const std::string& text) = 0;
    /// A piece of the page's content begins that belongs to this tag of the page: the number it is
    /// marked with there.
    virtual int mark(int tag) = 0;
    /// The name by which a page refers to the drawing of a stamp on it.
    virtual std::string drawing(const layout::Page& page, const layout::Stamp& stamp) = 0;
};

/// The name of a face in the resources of pages and drawings.
constexpr const char* font_name(layout::Face face) {
    return face == layout::Face::bold ? "F2" : "F1";
}

/// The drawing operators of a page (PDF 32000-1:2008, annex A), in points, origin at the bottom
/// left. All of it is marked content (14.6): with its tag's role and a number, or as an artifact.
/// Numbers have three decimals: a thousandth of a point is far below what a printer can show.
std::string operators(const layout::Page& page, Uses& uses);

/// Those of the drawing of a stamp by itself, origin where it is put.
std::string operators(const layout::Page& page, const layout::Stamp& stamp, Uses& uses);

}  // namespace gallipot::pdf
