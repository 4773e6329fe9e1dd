#pragma once

#include "papers/layout/page.hpp"
#include "papers/templates/stock.hpp"

namespace gallipot::layout {

/// Top left corner of the label at a position counted row by row from 0, in mm on the page.
Point position(const templates::Stock& stock, int index);

/// Short lines outside the corners of a label, to cut along.
void add_cut_marks(Page& page, const templates::Stock& stock, const Box& label);

}  // namespace gallipot::layout
