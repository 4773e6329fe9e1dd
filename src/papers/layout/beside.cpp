#include <algorithm>
#include <iterator>

#include "papers/layout/blocks.hpp"
#include "papers/layout/side_by_side.hpp"

namespace gallipot::layout {

namespace {

LineBoxes boxes_in(double width, const document::Group& group, const LayoutContext& context,
                   const std::string& name) {
    const PageStyle narrow = as_wide_as(context.style, width);
    std::vector<Overflow> overflows;
    LineBoxes boxes = line_boxes_of(
        group.blocks, {narrow, context.faces, context.language, context.store}, name, overflows);
    if (!overflows.empty()) throw LayoutError(std::move(overflows));
    return boxes;
}

}  // namespace

LineBoxes line_boxes_of(const document::Beside& beside, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    const double room = style.width() - style.column_gutter;
    const double right_width = room * beside.right_share, left_width = room - right_width;
    LineBoxes left, right;
    bool fits = true;
    try {
        left = boxes_in(left_width, *beside.left, context, name + ", left");
        right = boxes_in(right_width, *beside.right, context, name + ", right");
    } catch (const LayoutError&) {
        fits = false;
    }
    constexpr double share_of_page = 0.5;
    const double height = fits ? std::max(height_of(left), height_of(right)) : 0;
    if (!fits || height > share_of_page * style.page.height) {
        LineBoxes both = boxes_in(style.width(), *beside.left, context, name + ", left");
        LineBoxes below = boxes_in(style.width(), *beside.right, context, name + ", right");
        std::move(below.begin(), below.end(), std::back_inserter(both));
        return both;
    }
    LineBox box;
    box.name = name;
    box.before = left.empty() ? 0 : left.front().before;
    box.height = height;
    if (!left.empty()) box.bookmark = left.front().bookmark;
    put(box, std::move(left), 0);
    put(box, std::move(right), left_width + style.column_gutter);
    return {std::move(box)};
}

}  // namespace gallipot::layout
