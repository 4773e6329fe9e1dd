#pragma once

#include <span>

#include "papers/layout/line_box.hpp"
#include "papers/layout/style.hpp"

/// Strips set in a part of the page's width, and what is made of them.
namespace gallipot::layout {

/// What stands above the boxes' last bottom, the first one's space above it left out; mm.
double height_of(std::span<const LineBox> boxes);

/// The style of a page whose text is so many mm wide.
PageStyle as_wide_as(PageStyle style, double width);

/// Puts boxes one below the other into `box`, from its top, so many mm from its left.
void put(LineBox& box, LineBoxes boxes, double left);

/// All boxes in one, the first of them at the left, the rest `right` mm further to the right, so
/// divided that it is as low as can be.
LineBox in_two_columns(LineBoxes boxes, double right);

}  // namespace gallipot::layout
