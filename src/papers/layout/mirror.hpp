#pragma once

#include <vector>

#include "papers/layout/page.hpp"

/// Papers of languages that are written from right to left are laid out like others, and then what
/// stands at the left goes to the right.
namespace gallipot::layout {

/// Turns items round within a width. Lines, boxes and lines of text change places; text and
/// figures stay readable. `figures` has for each item the number of its figure, -1 where it belongs
/// to none.
void mirror(std::vector<Item>& items, const std::vector<int>& figures, double width);
void mirror(Box& box, double width);

/// A whole page, with what it leads to.
void mirror(Page& page);

}  // namespace gallipot::layout
