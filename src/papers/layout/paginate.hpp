#pragma once

#include <vector>

#include "papers/layout/misfit.hpp"
#include "papers/layout/strip.hpp"

namespace gallipot::layout {

/// A strip on a page, its top so many millimetres below the top of the text area.
struct PlacedStrip {
    const Strip* strip = nullptr;
    double top = 0;
};
using PageOfStrips = std::vector<PlacedStrip>;

/// Fills pages with strips in order; there is always at least one page. The first page's text area
/// is `first` mm high, the others' `other`, which is no more. Strips stay together as their `keep`
/// asks, and a table's headings are repeated where it goes on. A strip higher than a page is listed
/// in `misfits`. The result points into `strips`.
std::vector<PageOfStrips> paginate(const Strips& strips, double first, double other,
                                   std::vector<Misfit>& misfits);

}  // namespace gallipot::layout
