#include "papers/layout/sheet_marks.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "papers/layout/labels.hpp"
#include "papers/layout/typeset.hpp"

namespace gallipot::layout {

namespace {

using units::in_mm;

constexpr double thin = 0.12;    // mm
constexpr double away = 0.5;     // from a mark to the corner it belongs to
constexpr double longest = 4.0;  // of a mark

void add_line(Page& page, Point from, Point to, int group, double width = thin,
              Colour colour = black) {
    Line line;
    line.from = from;
    line.to = to;
    line.width = width;
    line.colour = colour;
    Item made = item(line);
    made.group = group;
    page.items.push_back(std::move(made));
}

/// Ten millimetres and their parts along an axis.
void add_scale(Page& page, Point origin, bool across, int group) {
    constexpr int reach = 10;
    for (int at = -reach; at <= reach; ++at) {
        const double half = at % 5 == 0 ? 1.6 : 0.8;
        if (across)
            add_line(page, {origin.x + at, origin.y - half}, {origin.x + at, origin.y + half},
                     group);
        else
            add_line(page, {origin.x - half, origin.y + at}, {origin.x + half, origin.y + at},
                     group);
    }
    const double end = reach;
    if (across)
        add_line(page, {origin.x - end, origin.y}, {origin.x + end, origin.y}, group);
    else
        add_line(page, {origin.x, origin.y - end}, {origin.x, origin.y + end}, group);
}

void add_outline(Page& page, const templates::Stock& stock, const Box& box, int group) {
    Rectangle outline;
    outline.box = box;
    outline.filled = false;
    outline.line_width = thin;
    outline.colour = black;
    outline.radius = stock.shape == templates::Shape::circle ? box.width / 2 : in_mm(stock.corner);
    Item made = item(outline);
    made.backdrop = true;  // the number stands inside
    made.group = group;
    page.items.push_back(std::move(made));
}

}  // namespace

void add_cut_marks(Page& page, const templates::Stock& stock, const Box& label) {
    // Marks of neighbours must not meet, nor leave the page.
    const double across = std::min(longest, std::max(0.0, in_mm(stock.gap_across) / 2 - away));
    const double down = std::min(longest, std::max(0.0, in_mm(stock.gap_down) / 2 - away));
    const int group = group_on(page, "cut marks");
    for (const double x : {label.x, label.right()}) {
        for (const bool top : {true, false}) {
            const double y = top ? label.y : label.bottom();
            const double sign = top ? -1 : 1;
            const double room = top ? label.y : page.size.height - label.bottom();
            const double length = std::min(stock.rows > 1 ? down : longest, room - 2 * away);
            if (length > 0)
                add_line(page, {x, y + sign * away}, {x, y + sign * (away + length)}, group);
        }
    }
    for (const double y : {label.y, label.bottom()}) {
        for (const bool left : {true, false}) {
            const double x = left ? label.x : label.right();
            const double sign = left ? -1 : 1;
            const double room = left ? label.x : page.size.width - label.right();
            const double length = std::min(stock.columns > 1 ? across : longest, room - 2 * away);
            if (length > 0)
                add_line(page, {x + sign * away, y}, {x + sign * (away + length), y}, group);
        }
    }
}

Paper alignment_page(const templates::Stock& stock, const fonts::Faces& faces,
                     const std::string& title, const LabelOptions& options) {
    Paper paper;
    paper.title = title;
    paper.language = "zxx";  // no words on it (ISO 639-2)
    Page& page = paper.pages.emplace_back();
    page.size = {in_mm(stock.page_width), in_mm(stock.page_height)};
    const int outlines = group_on(page, "outlines");
    const int numbers = group_on(page, "positions");
    for (int i = 0; i < stock.per_page(); ++i) {
        Point at = position(stock, i);
        at.x += options.offset.x;
        at.y += options.offset.y;
        const Box box{at.x, at.y, in_mm(stock.label_width), in_mm(stock.label_height)};
        add_outline(page, stock, box, outlines);
        const double size = 14;
        const auto number =
            set({{fmt::format("{}", i + 1), true}}, box.width / 2,
                {size, size, Alignment::centre, black, false}, "position", faces, "en");
        // The lower left quarter: the scales are at the middle of the edges.
        const std::size_t first = page.items.size();
        place(page, number, {box.x, box.y + box.height * 0.75 + size * mm_per_point * 0.35},
              numbers);
        for (std::size_t j = first; j < page.items.size(); ++j)
            page.items[j].tag =
                add_tag(page.tags, {Role::paragraph, -1, fmt::format("position {}", i + 1), {}});
        if (i == 0 || i + 1 == stock.per_page()) {
            const int scales = group_on(page, "scales");
            add_scale(page, {box.x + box.width / 2, box.y}, false, scales);
            add_scale(page, {box.x, box.y + box.height / 2}, true, scales);
        }
    }
    return paper;
}

}  // namespace gallipot::layout
