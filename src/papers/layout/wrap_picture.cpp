#include "papers/layout/wrap_picture.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace gallipot::layout {

namespace {

constexpr double line = 0.3;
constexpr double quarter = 0.5523;  // of a circle, by one cubic
constexpr double least_width = 20, least_height = 14;
constexpr double band_share = 0.28;  // of the strip's height, black

class Drawing {
  public:
    explicit Drawing(Page& page) : page_(page), group_(group_on(page, "how to wrap")) {}

    void fill(std::vector<PathStep> steps, Colour colour) {
        Path path{std::move(steps), true, colour, 0};
        put(item(std::move(path)));
    }
    void stroke(std::vector<PathStep> steps, double width = line) {
        Path path{std::move(steps), false, black, width};
        put(item(std::move(path)));
    }

  private:
    void put(Item made) {
        made.backdrop = true;
        made.group = group_;
        page_.items.push_back(std::move(made));
    }

    Page& page_;
    int group_;
};

PathStep move_to(Point p) {
    return {PathStep::Kind::move, p, {}, {}};
}
PathStep line_to(Point p) {
    return {PathStep::Kind::line, p, {}, {}};
}
PathStep close() {
    return {PathStep::Kind::close, {}, {}, {}};
}

/// From where the path is, at one side of a cup, along its front or back to the other side.
void add_half(std::vector<PathStep>& steps, Point from, double width, double depth) {
    const double half = width / 2, across = quarter * half, down = quarter * depth;
    const Point middle{from.x + half, from.y + depth};
    steps.push_back(
        {PathStep::Kind::curve, {from.x, from.y + down}, {middle.x - across, middle.y}, middle});
    steps.push_back({PathStep::Kind::curve,
                     {middle.x + across, middle.y},
                     {from.x + width, from.y + down},
                     {from.x + width, from.y}});
}

/// What lies on the front of a cup between two heights.
std::vector<PathStep> front(double left, double width, double depth, double top, double bottom) {
    std::vector<PathStep> steps{move_to({left, top})};
    add_half(steps, {left, top}, width, depth);
    steps.push_back(line_to({left + width, bottom}));
    add_half(steps, {left + width, bottom}, -width, depth);
    steps.push_back(close());
    return steps;
}

std::vector<PathStep> rectangle(const Box& box) {
    return {move_to({box.x, box.y}), line_to({box.right(), box.y}),
            line_to({box.right(), box.bottom()}), line_to({box.x, box.bottom()}), close()};
}

}  // namespace

bool add_wrap_picture(Page& page, const Box& room) {
    if (room.width < least_width || room.height < least_height) return false;
    Drawing drawing(page);
    const double high = std::min(room.height, room.width / 1.7), cup = 0.72 * high;
    const double depth = 0.13 * cup;
    const double left = room.x, right = left + cup;
    const double top = room.y + (room.height - high) / 2 + depth, bottom = top + high - 2 * depth;
    const double strip_top = top + 0.22 * (bottom - top);
    const double strip_bottom = bottom - 0.12 * (bottom - top);
    const double band = band_share * (strip_bottom - strip_top);

    // The loose end, about to go on over the beginning.
    const Box loose{left + 0.8 * cup, strip_top + 0.6 * depth, 0.75 * cup,
                    strip_bottom - strip_top};
    drawing.fill(rectangle(loose), white);
    drawing.fill(rectangle({loose.x, loose.y, loose.width, band}), black);
    drawing.stroke(rectangle(loose));

    // The cup before it, with the strip round its front.
    drawing.fill(front(left, cup, depth, top, bottom), white);
    std::vector<PathStep> outline{move_to({left, top}), line_to({left, bottom})};
    add_half(outline, {left, bottom}, cup, depth);
    outline.push_back(line_to({right, top}));
    drawing.stroke(outline);
    std::vector<PathStep> rim{move_to({left, top})};
    add_half(rim, {left, top}, cup, depth);
    add_half(rim, {right, top}, -cup, -depth);
    drawing.stroke(rim);
    drawing.fill(front(left, cup, depth, strip_top, strip_bottom), white);
    drawing.fill(front(left, cup, depth, strip_top, strip_top + band), black);
    drawing.stroke(front(left, cup, depth, strip_top, strip_bottom));
    // Where the beginning is, under the end that comes over it.
    const double seam = left + 0.62 * cup;
    drawing.stroke(
        {move_to({seam, strip_top + band + depth}), line_to({seam, strip_bottom + depth})},
        0.6 * line);

    // An arrow from the loose end to there.
    const Point from{loose.right() - 0.1 * cup, loose.bottom() + 0.05 * cup};
    const Point to{seam + 0.05 * cup, strip_bottom + 1.6 * depth};
    const double low = std::max(from.y, to.y) + 0.16 * cup;
    drawing.stroke(
        {move_to(from),
         {PathStep::Kind::curve, {from.x - 0.05 * cup, low}, {to.x + 0.3 * cup, low}, to}},
        2 * line);
    const double head = 0.07 * cup;
    drawing.fill({move_to({to.x - head, to.y - 0.2 * head}), line_to({to.x + head, to.y - head}),
                  line_to({to.x + 0.9 * head, to.y + 1.1 * head}), close()},
                 black);
    return true;
}

}  // namespace gallipot::layout
