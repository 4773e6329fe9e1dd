#pragma once

#include <memory>
#include <string>
#include <vector>

#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// Whether a strip must stand on the same page as the next one.
enum class Keep {
    free,
    if_possible,  ///< inside a group: unless the group is taller than a page
    always,       ///< a heading with what it heads
};

/// A strip of a page, as wide as the text: what is never split between pages. A line of a
/// paragraph, a row of a table, a banner.
struct LineBox {
    std::string name;   ///< becomes the group of its items
    double before = 0;  ///< space above it; none at the head of a page
    double height = 0;
    Keep keep = Keep::free;
    std::vector<Item> items;  ///< origin at the strip's top left
    Tags tags;                ///< of the items, in reading order
    int tag = -1;             ///< of the text that is added next
    std::string bookmark;     ///< a heading's
    int leads_to = -1;        ///< a chapter, when touched; see layout::Link
    /// Repeated above the strip when it begins a page: the headings of its table.
    std::shared_ptr<const LineBox> heading;
};
using LineBoxes = std::vector<LineBox>;

}  // namespace gallipot::layout
