#include "papers/layout/name_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gallipot::layout {

namespace {

constexpr double cell = 0.4;  // mm
constexpr double gap = 0.5;   // between a name and what is round it

Box grown(const Box& box, double by) {
    return {box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by};
}

/// The point of a box that lies nearest.
Point nearest(const Box& box, Point to) {
    return {std::clamp(to.x, box.x, box.right()), std::clamp(to.y, box.y, box.bottom())};
}

Point towards(Point from, Point to, double by) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length <= by) return to;
    return {from.x + (to.x - from.x) * by / length, from.y + (to.y - from.y) * by / length};
}

}  // namespace

bool inside(const std::vector<Point>& outline, Point point) {
    bool in = false;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        const Point& a = outline[i];
        const Point& b = outline[j];
        if ((a.y > point.y) == (b.y > point.y)) continue;
        if (point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
    }
    return in;
}

NamePlaces::NamePlaces(const Box& frame)
    : frame_(frame),
      columns_(static_cast<int>(std::ceil(frame.width / cell)) + 1),
      rows_(static_cast<int>(std::ceil(frame.height / cell)) + 1),
      cells_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), 0) {}

bool NamePlaces::free(const Box& box, unsigned of) const {
    if (!frame_.contains(box)) return false;
    const Box wide = grown(box, gap);
    const auto at = [](double x, double from) {
        return static_cast<int>(std::floor((x - from) / cell));
    };
    const int left = std::max(at(wide.x, frame_.x), 0);
    const int right = std::min(at(wide.right(), frame_.x), columns_ - 1);
    const int top = std::max(at(wide.y, frame_.y), 0);
    const int bottom = std::min(at(wide.bottom(), frame_.y), rows_ - 1);
    for (int row = top; row <= bottom; ++row)
        for (int column = left; column <= right; ++column)
            if ((cells_[index(row, column)] & of) != 0) return false;
    return true;
}

bool NamePlaces::free(Point from, Point to, unsigned of) const {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const int steps = static_cast<int>(length / cell * 2) + 1;
    for (int i = 0; i <= steps; ++i) {
        const double share = static_cast<double>(i) / steps;
        const double x = from.x + (to.x - from.x) * share;
        const double y = from.y + (to.y - from.y) * share;
        const int column = static_cast<int>(std::floor((x - frame_.x) / cell));
        const int row = static_cast<int>(std::floor((y - frame_.y) / cell));
        if (column < 0 || row < 0 || column >= columns_ || row >= rows_) return false;
        if ((cells_[index(row, column)] & of) != 0) return false;
    }
    return true;
}

void NamePlaces::fill(const Box& box, Holds with) {
    const auto at = [](double x, double from) {
        return static_cast<int>(std::floor((x - from) / cell));
    };
    for (int row = std::max(at(box.y, frame_.y), 0);
         row <= std::min(at(box.bottom(), frame_.y), rows_ - 1); ++row)
        for (int column = std::max(at(box.x, frame_.x), 0);
             column <= std::min(at(box.right(), frame_.x), columns_ - 1); ++column)
            cells_[index(row, column)] |= with;
}

void NamePlaces::draw(Point from, Point to, Holds with) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const int steps = static_cast<int>(length / cell * 2) + 1;
    for (int i = 0; i <= steps; ++i) {
        const double share = static_cast<double>(i) / steps;
        fill({from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share, 0, 0}, with);
    }
}

void NamePlaces::wall(Point from, Point to) {
    draw(from, to, walls);
}

void NamePlaces::mark(const Box& box) {
    fill(box, marks);
}

NamePlace NamePlaces::take(const NamePlace& place) {
    fill(grown(place.box, gap / 2), text);
    if (place.led) draw(place.from, place.to, line);
    return place;
}

std::optional<NamePlace> NamePlaces::beside(Point at, double across, Size name,
                                            unsigned avoid) const {
    const double away = across / 2 + gap + cell;
    const double right = at.x + away, left = at.x - away - name.width;
    const double above = at.y - away - name.height, below = at.y + away;
    const double middle = at.y - name.height / 2, centre = at.x - name.width / 2;
    const Point corners[] = {{right, middle}, {left, middle}, {centre, above}, {centre, below},
                             {right, above},  {left, above},  {right, below},  {left, below}};
    for (const Point& corner : corners) {
        const Box box{corner.x, corner.y, name.width, name.height};
        if (free(box, avoid)) return NamePlace{box, false, {}, {}};
    }
    return std::nullopt;
}

std::optional<NamePlace> NamePlaces::further(Point at, double across, Size name, double nearest_at,
                                             double furthest, unsigned avoid,
                                             unsigned line_avoids) const {
    constexpr double step = 1.6;
    for (double radius = nearest_at; radius <= furthest; radius += step) {
        const int directions = std::clamp(static_cast<int>(radius * 2), 12, 72);
        for (int i = 0; i < directions; ++i) {
            const double angle = 2 * std::numbers::pi * i / directions;
            const Point middle{at.x + radius * std::cos(angle), at.y - radius * std::sin(angle)};
            // Its near side, not its middle, lies so far away.
            const Box box{middle.x - name.width / 2 + std::cos(angle) * name.width / 2,
                          middle.y - name.height / 2 - std::sin(angle) * name.height / 2,
                          name.width, name.height};
            if (!free(box, avoid)) continue;
            const Point end = nearest(grown(box, gap / 2), at);
            const Point from = towards(at, end, across / 2);
            const Point clear = towards(at, end, across / 2 + 2 * cell);
            if (!free(from, end, text) || !free(clear, end, line_avoids)) continue;
            return NamePlace{box, true, from, end};
        }
    }
    return std::nullopt;
}

std::optional<NamePlace> NamePlaces::near(Point at, double across, Size name) {
    const double close = across / 2 + 2;
    const double all = std::hypot(frame_.width, frame_.height);
    constexpr unsigned strict = text | marks | line | walls;
    constexpr unsigned loose = text | marks | line;
    auto found = beside(at, across, name, strict);
    if (!found) found = further(at, across, name, close, 14, strict, loose);
    if (!found) found = beside(at, across, name, loose);
    if (!found) found = further(at, across, name, close, 60, loose, loose);
    if (!found) found = further(at, across, name, close, all, loose, text | marks);
    if (!found) found = further(at, across, name, close, all, loose, text);
    if (!found) return std::nullopt;
    return take(*found);
}

std::optional<NamePlace> NamePlaces::within(const std::vector<Point>& outline, Size name) {
    double left = outline[0].x, right = left, top = outline[0].y, bottom = top;
    for (const Point& p : outline) {
        left = std::min(left, p.x);
        right = std::max(right, p.x);
        top = std::min(top, p.y);
        bottom = std::max(bottom, p.y);
    }
    const Point middle{(left + right) / 2, (top + bottom) / 2};
    std::optional<NamePlace> best;
    double best_away = 0;
    constexpr double step = 1;
    for (double y = top; y + name.height <= bottom; y += step) {
        for (double x = left; x + name.width <= right; x += step) {
            const Box box{x, y, name.width, name.height};
            const Point centre{x + name.width / 2, y + name.height / 2};
            const double away = std::hypot(centre.x - middle.x, centre.y - middle.y);
            if (best && away >= best_away) continue;
            if (!inside(outline, centre) || !free(box, text | marks | line | walls)) continue;
            best = NamePlace{box, false, {}, {}};
            best_away = away;
        }
    }
    if (best) take(*best);
    return best;
}

}  // namespace gallipot::layout
