#include "papers/layout/pictogram.hpp"

#include <cmath>
#include <numbers>

namespace gallipot::layout {

namespace {

// Drawn in a square from -1 to 1, y downwards, the frame's points at its sides.

/// Clear inside of the frame: the frame is 5.5 % of its side wide (the standard asks for one wide
/// enough to be plain to see and gives no figure).
constexpr double inside = 1 - 2 * 0.055;

/// Turns drawing units into a path on the page.
class Pen {
  public:
    Pen(Point centre, double scale) : centre_(centre), scale_(scale) {}

    Pen& move(double x, double y) { return add(PathStep::Kind::move, {x, y}, {}, {}); }
    Pen& line(double x, double y) { return add(PathStep::Kind::line, {x, y}, {}, {}); }
    Pen& curve(Point a, Point b, Point c) { return add(PathStep::Kind::curve, a, b, c); }
    Pen& close() {
        path_.steps.push_back({PathStep::Kind::close, {}, {}, {}});
        return *this;
    }
    Pen& diamond(double half) {
        return move(0, -half).line(half, 0).line(0, half).line(-half, 0).close();
    }
    Pen& circle(Point c, double r) {
        const double k = r * 4 / 3 * (std::numbers::sqrt2 - 1);  // a quarter circle as a cubic
        move(c.x + r, c.y);
        curve({c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r});
        curve({c.x - k, c.y + r}, {c.x - r, c.y + k}, {c.x - r, c.y});
        curve({c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r});
        curve({c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y});
        return close();
    }
    /// Points by turns far and near, the first straight up.
    Pen& star(Point c, int points, double far, double near) {
        for (int i = 0; i < 2 * points; ++i) {
            const double angle = std::numbers::pi * i / points;
            const double r = i % 2 == 0 ? far : near;
            const double x = c.x + r * std::sin(angle), y = c.y - r * std::cos(angle);
            i == 0 ? move(x, y) : line(x, y);
        }
        return close();
    }
    [[nodiscard]] Item done(Colour colour) const {
        Path path = path_;
        path.colour = colour;
        return item(path);
    }

  private:
    [[nodiscard]] Point at(Point p) const {
        return {centre_.x + p.x * scale_, centre_.y + p.y * scale_};
    }
    Pen& add(PathStep::Kind kind, Point a, Point b, Point c) {
        path_.steps.push_back({kind, at(a), at(b), at(c)});
        return *this;
    }

    Point centre_;
    double scale_;
    Path path_;
};

/// Head and shoulders with a burst in the chest.
Item health_hazard(Pen pen) {
    pen.circle({0, -0.46}, 0.15);
    pen.move(-0.09, -0.27);
    pen.curve({-0.24, -0.25}, {-0.30, -0.20}, {-0.32, -0.06});
    pen.line(-0.40, 0.36);
    pen.curve({-0.41, 0.42}, {-0.38, 0.44}, {-0.34, 0.44});
    pen.line(0.34, 0.44);
    pen.curve({0.38, 0.44}, {0.41, 0.42}, {0.40, 0.36});
    pen.line(0.32, -0.06);
    pen.curve({0.30, -0.20}, {0.24, -0.25}, {0.09, -0.27});
    pen.close();
    pen.star({0, 0.09}, 6, 0.29, 0.105);
    return pen.done(black);
}

Item exclamation(Pen pen) {
    pen.move(-0.135, -0.50);
    pen.curve({-0.135, -0.60}, {-0.08, -0.65}, {0, -0.65});
    pen.curve({0.08, -0.65}, {0.135, -0.60}, {0.135, -0.50});
    pen.line(0.065, 0.14);
    pen.curve({0.06, 0.20}, {0.03, 0.22}, {0, 0.22});
    pen.curve({-0.03, 0.22}, {-0.06, 0.20}, {-0.065, 0.14});
    pen.close();
    pen.circle({0, 0.44}, 0.125);
    return pen.done(black);
}

}  // namespace

double pictogram_extent(double side) {
    return side * std::numbers::sqrt2;
}

std::vector<Item> pictogram(safety::Pictogram which, Point at, double side) {
    const double half = pictogram_extent(side) / 2;
    const Point centre{at.x + half, at.y + half};
    std::vector<Item> items;
    items.push_back(Pen(centre, half).diamond(1).diamond(inside).done(pictogram_red));
    const Pen pen(centre, half);
    items.push_back(which == safety::Pictogram::health_hazard ? health_hazard(pen)
                                                              : exclamation(pen));
    return items;
}

}  // namespace gallipot::layout
