#pragma once

#include "papers/document/content.hpp"
#include "papers/layout/line_box.hpp"

/// Small shapes on plots and plans.
namespace gallipot::layout {

void add_shape(LineBox& strip, Item item, bool backdrop);

/// A filled shape through corners.
Path polygon(const std::vector<Point>& corners);

/// A mark with its middle at `at`, so many millimetres across. Marks lie under text.
void add_mark(LineBox& strip, document::Mark mark, Point at, double across);

}  // namespace gallipot::layout
