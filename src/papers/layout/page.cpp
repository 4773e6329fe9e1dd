#include "papers/layout/page.hpp"

#include <algorithm>
#include <utility>

namespace gallipot::layout {

bool Box::contains(const Box& other, double slack) const {
    return other.x >= x - slack && other.y >= y - slack && other.right() <= right() + slack &&
           other.bottom() <= bottom() + slack;
}

bool Box::overlaps(const Box& other, double slack) const {
    return std::min(right(), other.right()) - std::max(x, other.x) > slack &&
           std::min(bottom(), other.bottom()) - std::max(y, other.y) > slack;
}

int group_on(Page& page, std::string_view name) {
    // The group in hand is nearly always the last one.
    const auto found = std::find(page.groups.rbegin(), page.groups.rend(), name);
    if (found != page.groups.rend()) {
        return static_cast<int>(page.groups.rend() - found) - 1;
    }
    page.groups.emplace_back(name);
    return static_cast<int>(page.groups.size()) - 1;
}

namespace {

struct Mover {
    double right, down;

    void operator()(Point& point) const {
        point.x += right;
        point.y += down;
    }
    void operator()(Box& box) const {
        box.x += right;
        box.y += down;
    }
    void operator()(Text& text) const { (*this)(text.origin); }
    void operator()(Line& line) const {
        (*this)(line.from);
        (*this)(line.to);
    }
    void operator()(Rectangle& rectangle) const { (*this)(rectangle.box); }
    void operator()(Path& path) const {
        for (PathStep& step : path.steps) {
            (*this)(step.a);
            (*this)(step.b);
            (*this)(step.c);
        }
    }
    void operator()(Code& code) const { (*this)(code.box); }
};

/// Grows from its first point to take in the others.
class Extent {
  public:
    void take(Point point) {
        low_ = empty_ ? point : Point{std::min(low_.x, point.x), std::min(low_.y, point.y)};
        high_ = empty_ ? point : Point{std::max(high_.x, point.x), std::max(high_.y, point.y)};
        empty_ = false;
    }
    /// The box, with half the width of a stroke around it.
    [[nodiscard]] Box box(double stroke) const {
        const double half = stroke / 2;
        return {low_.x - half, low_.y - half, high_.x - low_.x + stroke, high_.y - low_.y + stroke};
    }

  private:
    bool empty_ = true;
    Point low_, high_;
};

Item with_bounds(Shape shape, Box bounds) {
    Item made;
    made.shape = std::move(shape);
    made.bounds = bounds;
    return made;
}

}  // namespace

void move(Item& item, double right, double down) {
    const Mover mover{right, down};
    std::visit(mover, item.shape);
    mover(item.bounds);
}

Item item(Line line) {
    Extent extent;
    extent.take(line.from);
    extent.take(line.to);
    // Strokes end square at their ends, so a level line is no longer than it says.
    Box box = extent.box(line.width);
    if (line.from.y == line.to.y) box = {extent.box(0).x, box.y, extent.box(0).width, box.height};
    if (line.from.x == line.to.x) box = {box.x, extent.box(0).y, box.width, extent.box(0).height};
    return with_bounds(line, box);
}

Item item(Rectangle rectangle) {
    Extent extent;
    extent.take({rectangle.box.x, rectangle.box.y});
    extent.take({rectangle.box.right(), rectangle.box.bottom()});
    const Box box = extent.box(rectangle.filled ? 0 : rectangle.line_width);
    return with_bounds(rectangle, box);
}

Item item(Path path) {
    // The control points of a curve enclose it: a box a little too large, never too small.
    Extent extent;
    for (const PathStep& step : path.steps) {
        if (step.kind == PathStep::Kind::close) continue;
        extent.take(step.a);
        if (step.kind != PathStep::Kind::curve) continue;
        extent.take(step.b);
        extent.take(step.c);
    }
    const Box box = extent.box(path.filled ? 0 : path.line_width);
    return with_bounds(std::move(path), box);
}

Item item(Code code) {
    const Box box = code.box;
    return with_bounds(std::move(code), box);
}

}  // namespace gallipot::layout
