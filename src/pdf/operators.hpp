#pragma once

#include <string>
#include <string_view>

#include "layout/page.hpp"

namespace gallipot::pdf {

/// Gives the name under which a page knows a face, and hears of every character set in it.
class FontUse {
  public:
    virtual ~FontUse() = default;
    virtual std::string_view name(layout::Face face) = 0;
    virtual void use(layout::Face face, char32_t character) = 0;
};

/// The drawing operators of a page (PDF 32000-1:2008, annex A), in points, origin at the bottom
/// left. Numbers have three decimals: a thousandth of a point is far below what a printer can show.
std::string operators(const layout::Page& page, FontUse& fonts);

}  // namespace gallipot::pdf
