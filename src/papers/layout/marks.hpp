#pragma once

#include "papers/document/content.hpp"
#include "papers/layout/strip.hpp"

/// Small shapes on plots and plans.
namespace gallipot::layout {

void add_shape(Strip& strip, Item item, bool backdrop);

/// A filled shape through corners.
Path polygon(const std::vector<Point>& corners);

/// A mark with its middle at `at`, so many millimetres across. Marks lie under text.
void add_mark(Strip& strip, document::Mark mark, Point at, double across);

}  // namespace gallipot::layout
