#include "papers/layout/marks.hpp"

#include <utility>

namespace gallipot::layout {

void add_shape(LineBox& strip, Item item, bool backdrop) {
    item.backdrop = backdrop;
    strip.items.push_back(std::move(item));
}

Path polygon(const std::vector<Point>& corners) {
    Path path;
    for (std::size_t i = 0; i < corners.size(); ++i)
        path.steps.push_back(
            {i == 0 ? PathStep::Kind::move : PathStep::Kind::line, corners[i], {}, {}});
    path.steps.push_back({PathStep::Kind::close, {}, {}, {}});
    return path;
}

void add_mark(LineBox& strip, document::Mark mark, Point at, double across) {
    using document::Mark;
    constexpr double line = 0.25;
    const double half = across / 2;
    const Box box{at.x - half, at.y - half, 2 * half, 2 * half};
    switch (mark) {
        case Mark::disc:
            add_shape(strip, item(Rectangle{box, true, black, 0, half}), true);
            break;
        case Mark::ring:
            add_shape(strip, item(Rectangle{box, true, white, 0, half}), true);
            add_shape(strip, item(Rectangle{box, false, black, line, half}), true);
            break;
        case Mark::triangle:
            add_shape(
                strip,
                item(polygon(
                    {{at.x, at.y - half}, {at.x + half, at.y + half}, {at.x - half, at.y + half}})),
                true);
            break;
        case Mark::square:
            add_shape(strip, item(Rectangle{box}), true);
            break;
        case Mark::cross: {
            Path path;
            path.filled = false;
            path.line_width = 1.5 * line;
            path.steps = {{PathStep::Kind::move, {box.x, box.y}, {}, {}},
                          {PathStep::Kind::line, {box.right(), box.bottom()}, {}, {}},
                          {PathStep::Kind::move, {box.x, box.bottom()}, {}, {}},
                          {PathStep::Kind::line, {box.right(), box.y}, {}, {}}};
            add_shape(strip, item(path), true);
            break;
        }
    }
}

}  // namespace gallipot::layout
