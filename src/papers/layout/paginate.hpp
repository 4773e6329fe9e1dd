#pragma once

#include <vector>

#include "papers/layout/line_box.hpp"
#include "papers/layout/overflow.hpp"

namespace gallipot::layout {

/// A strip on a page, its top so many millimetres below the top of the text area.
struct PlacedStrip {
    const LineBox* line_box = nullptr;
    double top = 0;
};
using PageOfStrips = std::vector<PlacedStrip>;

/// Fills pages with strips in order; there is always at least one page. The first page's text area
/// is `first` mm high, the others' `other`, which is no more. LineBoxes stay together as their
/// `keep` asks, and a table's headings are repeated where it goes on. A strip higher than a page is
/// listed in `overflows`. The result points into `strips`.
std::vector<PageOfStrips> paginate(const LineBoxes& line_boxes, double first, double other,
                                   std::vector<Overflow>& overflows);

}  // namespace gallipot::layout
