#include <algorithm>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"

namespace gallipot::layout {

namespace {

using document::Sign;

/// Draws in a square, by shares of its side. Black on white, so that any printer will do; a slash
/// has white beside it, so that it is seen before a black shape.
class Pen {
  public:
    Pen(LineBox& line_box, Point at, double side) : line_box_(line_box), at_(at), side_(side) {}

    void block(double x, double y, double width, double height, double radius = 0,
               Colour colour = black) {
        add_shape(line_box_,
                  item(Rectangle{box(x, y, width, height), true, colour, 0, radius * side_}), true);
    }
    void disc(double x, double y, double radius) {
        block(x - radius, y - radius, 2 * radius, 2 * radius, radius);
    }
    void ring(double x, double y, double radius, double line) {
        add_shape(line_box_,
                  item(Rectangle{box(x - radius, y - radius, 2 * radius, 2 * radius), false, black,
                                 line * side_, radius * side_}),
                  true);
    }
    void shape(const std::vector<Point>& corners) {
        std::vector<Point> placed;
        placed.reserve(corners.size());
        for (const Point& p : corners) placed.push_back(place(p));
        add_shape(line_box_, item(polygon(placed)), true);
    }
    void stroke(Point from, Point to, double line, Colour colour) {
        add_shape(line_box_, item(Line{place(from), place(to), line * side_, colour}), true);
    }
    /// The ring and slash of a prohibition, from the upper left to the lower right (ISO 3864-1).
    void prohibition() {
        constexpr double radius = 0.46, line = 0.07;
        constexpr double reach = 0.325;  // the ring's middle at 45 degrees
        stroke({0.5 - reach, 0.5 - reach}, {0.5 + reach, 0.5 + reach}, 2.2 * line, white);
        stroke({0.5 - reach, 0.5 - reach}, {0.5 + reach, 0.5 + reach}, line, black);
        ring(0.5, 0.5, radius, line);
    }

  private:
    [[nodiscard]] Point place(Point p) const { return {at_.x + side_ * p.x, at_.y + side_ * p.y}; }
    [[nodiscard]] Box box(double x, double y, double width, double height) const {
        return {at_.x + side_ * x, at_.y + side_ * y, side_ * width, side_ * height};
    }

    LineBox& line_box_;
    Point at_;
    double side_;
};

void cup(Pen& pen) {
    pen.ring(0.64, 0.47, 0.09, 0.045);
    pen.shape({{0.28, 0.34}, {0.66, 0.34}, {0.61, 0.70}, {0.33, 0.70}});
}

void hand(Pen& pen) {
    pen.block(0.35, 0.48, 0.29, 0.27, 0.07);
    const double tops[] = {0.34, 0.27, 0.25, 0.30};
    for (int i = 0; i < 4; ++i) pen.block(0.35 + 0.077 * i, tops[i], 0.06, 0.32, 0.03);
    pen.shape({{0.62, 0.60}, {0.72, 0.46}, {0.77, 0.50}, {0.66, 0.70}});
}

void spray_can(Pen& pen) {
    pen.block(0.47, 0.42, 0.18, 0.33, 0.02);
    pen.block(0.51, 0.34, 0.10, 0.06);
    for (const Point p :
         {Point{0.43, 0.36}, {0.36, 0.31}, {0.36, 0.41}, {0.29, 0.27}, {0.29, 0.36}, {0.29, 0.45}})
        pen.disc(p.x, p.y, 0.022);
}

void telephone(Pen& pen) {
    pen.block(0.02, 0.02, 0.96, 0.96, 0.12);
    pen.block(0.33, 0.16, 0.34, 0.68, 0.06, white);
    pen.block(0.37, 0.24, 0.26, 0.44);
    pen.disc(0.5, 0.76, 0.035);
}

void draw(Sign sign, LineBox& line_box, Point at, double side) {
    Pen pen(line_box, at, side);
    switch (sign) {
        case Sign::not_food:
            cup(pen);
            pen.prohibition();
            return;
        case Sign::no_touching:
            hand(pen);
            pen.prohibition();
            return;
        case Sign::no_spray:
            spray_can(pen);
            pen.prohibition();
            return;
        case Sign::call:
            telephone(pen);
            return;
    }
}

}  // namespace

LineBoxes line_boxes_of(const document::Signs& signs, const LayoutContext& context,
                        const std::string& name) {
    if (signs.entries.empty()) return {};
    const PageStyle& style = context.style;
    const auto count = static_cast<double>(signs.entries.size());
    const double width = (style.width() - (count - 1) * style.gutter) / count;
    const double indent = style.sign + style.tick_gap;
    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_columns;
    std::vector<TextLayout> settings;
    line_box.height = style.sign;
    for (const auto& entry : signs.entries) {
        settings.push_back(context.set(in_bold(entry.text), width - indent, style.normal, name));
        line_box.height =
            std::max(line_box.height, settings.back().lines * settings.back().leading);
    }
    double left = 0;
    for (std::size_t i = 0; i < settings.size(); ++i) {
        draw(signs.entries[i].sign, line_box, {left, (line_box.height - style.sign) / 2},
             style.sign);
        const double top = (line_box.height - settings[i].lines * settings[i].leading) / 2;
        add(line_box, settings[i], {left + indent, top}, context);
        left += width + style.gutter;
    }
    return {line_box};
}

}  // namespace gallipot::layout
