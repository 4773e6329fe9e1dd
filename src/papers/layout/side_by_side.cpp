#include "papers/layout/side_by_side.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace gallipot::layout {

double height_of(std::span<const LineBox> boxes) {
    double height = 0;
    for (std::size_t i = 0; i < boxes.size(); ++i)
        height += (i == 0 ? 0 : boxes[i].before) + boxes[i].height;
    return height;
}

PageStyle as_wide_as(PageStyle style, double width) {
    style.page.width = width + 2 * style.margin;
    return style;
}

void put(LineBox& box, LineBoxes boxes, double left) {
    double top = 0;
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        if (i > 0) top += boxes[i].before;
        const auto tags = add_tags(box.tags, boxes[i].tags);
        for (Item& item : boxes[i].items) {
            move(item, left, top);
            if (item.tag >= 0) item.tag = tags[static_cast<std::size_t>(item.tag)];
            box.items.push_back(std::move(item));
        }
        top += boxes[i].height;
    }
}

LineBox in_two_columns(LineBoxes boxes, double right) {
    LineBox box;
    if (boxes.empty()) return box;
    box.before = boxes.front().before;
    const std::span<const LineBox> all(boxes);
    std::size_t in_first = 1;
    box.height = height_of(all);
    for (std::size_t i = 1; i <= all.size(); ++i) {
        const double height = std::max(height_of(all.first(i)), height_of(all.subspan(i)));
        if (height >= box.height) continue;
        box.height = height;
        in_first = i;
    }
    LineBoxes second(std::make_move_iterator(boxes.begin() + static_cast<std::ptrdiff_t>(in_first)),
                     std::make_move_iterator(boxes.end()));
    boxes.resize(in_first);
    put(box, std::move(boxes), 0);
    put(box, std::move(second), right);
    return box;
}

}  // namespace gallipot::layout
