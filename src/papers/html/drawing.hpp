#pragma once

#include <string>

#include "papers/html/markup.hpp"
#include "papers/layout/line_box.hpp"

namespace gallipot::html {

/// What the layout made of a figure, `width` mm wide, as a drawing that grows with its page.
/// `alternative` is what it shows, in words; where it is empty, the words beside it say it.
Html drawing(const layout::LineBoxes& boxes, double width, const std::string& alternative);

}  // namespace gallipot::html
