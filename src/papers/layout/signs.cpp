#include <algorithm>
#include <cmath>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"
#include "papers/layout/share_width.hpp"

namespace gallipot::layout {

namespace {

using document::Sign;

/// Draws in a square, by shares of its side. The picture is black; ring and slash of a prohibition
/// are red and print dark without colour. White beside the slash parts it from the picture.
class Pen {
  public:
    Pen(LineBox& line_box, Point at, double side) : line_box_(line_box), at_(at), side_(side) {}

    void block(double x, double y, double width, double height, double radius = 0,
               Colour colour = black) {
        add_shape(line_box_,
                  item(Rectangle{box(x, y, width, height), true, colour, 0, radius * side_}), true);
    }
    void disc(double x, double y, double radius, Colour colour = black) {
        block(x - radius, y - radius, 2 * radius, 2 * radius, radius, colour);
    }
    void ring(double x, double y, double radius, double line, Colour colour = black) {
        add_shape(line_box_,
                  item(Rectangle{box(x - radius, y - radius, 2 * radius, 2 * radius), false, colour,
                                 line * side_, radius * side_}),
                  true);
    }
    void shape(const std::vector<Point>& corners, Colour colour = black) {
        std::vector<Point> placed;
        placed.reserve(corners.size());
        for (const Point& p : corners) placed.push_back(place(p));
        Path path = polygon(placed);
        path.colour = colour;
        add_shape(line_box_, item(std::move(path)), true);
    }
    /// A bar with round ends.
    void bar(Point from, Point to, double line, Colour colour = black) {
        add_shape(line_box_, item(Line{place(from), place(to), line * side_, colour}), true);
        disc(from.x, from.y, line / 2, colour);
        disc(to.x, to.y, line / 2, colour);
    }
    /// The ring and slash of a prohibition, from the upper left to the lower right (ISO 3864-1).
    void prohibition() {
        constexpr double radius = 0.46, line = 0.065, slash = 0.055, gap = 0.02;
        constexpr double reach = 0.325;  // the ring's middle at 45 degrees
        const Point from{0.5 - reach, 0.5 - reach}, to{0.5 + reach, 0.5 + reach};
        stroke(from, to, slash + 2 * gap, white);
        stroke(from, to, slash, pictogram_red);
        ring(0.5, 0.5, radius, line, pictogram_red);
    }

  private:
    void stroke(Point from, Point to, double line, Colour colour) {
        add_shape(line_box_, item(Line{place(from), place(to), line * side_, colour}), true);
    }
    [[nodiscard]] Point place(Point p) const { return {at_.x + side_ * p.x, at_.y + side_ * p.y}; }
    [[nodiscard]] Box box(double x, double y, double width, double height) const {
        return {at_.x + side_ * x, at_.y + side_ * y, side_ * width, side_ * height};
    }

    LineBox& line_box_;
    Point at_;
    double side_;
};

/// A cup to the left, a fork to the right: most of both lies beside the slash.
void cup_and_fork(Pen& pen) {
    pen.shape({{0.16, 0.46}, {0.50, 0.46}, {0.46, 0.76}, {0.20, 0.76}});
    pen.ring(0.50, 0.57, 0.07, 0.04);
    for (const double x : {0.58, 0.645, 0.71}) pen.bar({x, 0.19}, {x, 0.36}, 0.036);
    pen.block(0.562, 0.35, 0.166, 0.07, 0.03);
    pen.bar({0.645, 0.40}, {0.645, 0.78}, 0.055);
}

/// An open hand, its fingers spread.
void hand(Pen& pen) {
    pen.block(0.34, 0.46, 0.30, 0.34, 0.10);
    pen.bar({0.375, 0.55}, {0.31, 0.29}, 0.075);
    pen.bar({0.455, 0.50}, {0.435, 0.19}, 0.078);
    pen.bar({0.535, 0.50}, {0.555, 0.18}, 0.078);
    pen.bar({0.605, 0.55}, {0.665, 0.26}, 0.075);
    pen.bar({0.60, 0.70}, {0.76, 0.51}, 0.085);
}

/// A can whose spray goes to the upper right, clear of the slash.
void spray_can(Pen& pen) {
    pen.block(0.27, 0.40, 0.24, 0.42, 0.03);
    pen.shape({{0.27, 0.42}, {0.51, 0.42}, {0.46, 0.34}, {0.32, 0.34}});
    pen.block(0.34, 0.24, 0.10, 0.08, 0.015);
    pen.block(0.44, 0.255, 0.05, 0.035);
    for (const Point p : {Point{0.56, 0.272},
                          {0.64, 0.225},
                          {0.64, 0.32},
                          {0.72, 0.18},
                          {0.72, 0.272},
                          {0.72, 0.365},
                          {0.80, 0.32},
                          {0.80, 0.41},
                          {0.80, 0.235}})
        pen.disc(p.x, p.y, 0.024);
}

/// The receiver of a telephone, white on black.
void telephone(Pen& pen) {
    pen.block(0.02, 0.02, 0.96, 0.96, 0.12);
    std::vector<Point> bow;
    constexpr int parts = 16;
    constexpr double pi = 3.14159265358979323846;
    const auto arc = [&](double across, double up, int i) {
        const double angle = pi * i / parts;
        bow.push_back({0.5 - across * std::cos(angle), 0.56 - up * std::sin(angle)});
    };
    for (int i = 0; i <= parts; ++i) arc(0.38, 0.30, i);
    for (int i = parts; i >= 0; --i) arc(0.22, 0.13, i);
    pen.shape(bow, white);
    pen.block(0.10, 0.50, 0.23, 0.20, 0.05, white);
    pen.block(0.67, 0.50, 0.23, 0.20, 0.05, white);
}

void draw(Sign sign, LineBox& line_box, Point at, double side) {
    Pen pen(line_box, at, side);
    switch (sign) {
        case Sign::not_food:
            cup_and_fork(pen);
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

/// One large picture, the number and the words beside it.
LineBox large_sign(const document::Signs::Entry& entry, const LayoutContext& context,
                   const std::string& name) {
    const PageStyle& style = context.style;
    const double side = style.sign_large, indent = side + style.gutter;
    const double measure = style.width() - indent;
    const TextLayout number = context.set(in_bold(entry.number), measure, style.poster, name);
    Type type = style.large;
    type.leading = 1.15 * type.size;
    std::vector<TextLayout> words;
    double height = number.lines * number.leading;
    for (const text::StyledText& line : entry.lines) {
        words.push_back(context.set(in_bold(line), measure, type, name));
        height += words.back().lines * words.back().leading;
    }
    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_columns;
    line_box.height = std::max(side, height);
    draw(entry.sign, line_box, {0, (line_box.height - side) / 2}, side);
    make_figure(line_box, 0, entry.alternative);
    double top = (line_box.height - height) / 2;
    const auto add_below = [&](const TextLayout& setting, const std::string& language = {}) {
        line_box.tag = add_tag(line_box.tags, {Role::paragraph, -1, {}, {}, language});
        add(line_box, setting, {indent, top}, context);
        top += setting.lines * setting.leading;
    };
    add_below(number);
    for (std::size_t i = 0; i < words.size(); ++i) {
        const text::StyledText& line = entry.lines[i];
        add_below(words[i], line.empty() ? std::string() : line.front().language);
    }
    return line_box;
}

/// Pictures in a row, each with words beside it.
struct Beside {
    double side = 0;             ///< of a picture
    std::vector<double> widths;  ///< of the words
    std::vector<TextLayout> words;
    double height = 0;
};

Beside beside(const document::Signs& signs, double side, const LayoutContext& context,
              const std::string& name) {
    const PageStyle& style = context.style;
    Beside row;
    row.side = row.height = side;
    std::vector<ColumnNeed> needs;
    for (const auto& entry : signs.entries) {
        const MeasuredText& words = context.words(in_bold(entry.text), name);
        const double widest = in_mm(words.widest(), style.normal.size);
        // What else there is goes to whoever has more to say.
        needs.push_back({widest, widest, in_mm(words.unbroken(), style.normal.size)});
    }
    const auto count = static_cast<double>(signs.entries.size());
    const double room =
        style.width() + style.gutter - count * (style.gutter + style.tick_gap + side);
    const auto shared = share_width(needs, room);
    row.widths = shared ? *shared : std::vector<double>(signs.entries.size(), room / count);
    for (std::size_t i = 0; i < row.widths.size(); ++i) {
        row.words.push_back(
            context.set(in_bold(signs.entries[i].text), row.widths[i], style.normal, name));
        row.height = std::max(row.height, row.words.back().lines * row.words.back().leading);
    }
    return row;
}

/// Smaller pictures rather than smaller words, or more lines of them than a picture is high.
Beside lowest(const document::Signs& signs, const LayoutContext& context, const std::string& name) {
    constexpr double step = 1;
    const PageStyle& style = context.style;
    const auto count = static_cast<double>(signs.entries.size());
    double widest = 0;
    for (const auto& entry : signs.entries)
        widest += in_mm(context.words(in_bold(entry.text), name).widest(), style.normal.size);
    const double all = style.width() + style.gutter - count * (style.gutter + style.tick_gap);
    const double largest = std::clamp((all - widest) / count, style.sign_least, style.sign);
    Beside best = beside(signs, largest, context, name);
    for (double side = largest - step; side >= style.sign_least && best.height > style.sign;
         side -= step)
        if (Beside row = beside(signs, side, context, name); row.height < best.height - 1e-6)
            best = std::move(row);
    return best;
}

}  // namespace

LineBoxes line_boxes_of(const document::Signs& signs, const LayoutContext& context,
                        const std::string& name) {
    if (signs.entries.empty()) return {};
    const PageStyle& style = context.style;
    if (signs.large) {
        LineBoxes line_boxes;
        for (const auto& entry : signs.entries)
            line_boxes.push_back(large_sign(entry, context, name));
        return line_boxes;
    }
    const Beside row = lowest(signs, context, name);
    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_columns;
    line_box.height = row.height;
    double left = 0;
    for (std::size_t i = 0; i < row.words.size(); ++i) {
        const std::size_t first = line_box.items.size();
        draw(signs.entries[i].sign, line_box, {left, (row.height - row.side) / 2}, row.side);
        make_figure(line_box, first, signs.entries[i].alternative);
        const TextLayout& words = row.words[i];
        const double indent = row.side + style.tick_gap;
        begin(line_box, Role::paragraph);
        add(line_box, words, {left + indent, (row.height - words.lines * words.leading) / 2},
            context);
        left += indent + row.widths[i] + style.gutter;
    }
    return {line_box};
}

}  // namespace gallipot::layout
