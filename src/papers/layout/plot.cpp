#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"

namespace gallipot::layout {

namespace {

using document::Mark;
using document::Plot;
using document::Stroke;

constexpr Colour band_grey{222, 222, 222};

/// Draws a line through `points`; dashes run on round corners.
void add_curve(LineBox& line_box, const std::vector<Point>& points, Stroke stroke,
               const PageStyle& style) {
    if (points.size() < 2) return;
    Path path;
    path.filled = false;
    path.line_width = stroke == Stroke::solid ? style.plot_curve : style.plot_thin;
    const auto step = [&](PathStep::Kind kind, Point to) {
        path.steps.push_back({kind, to, {}, {}});
    };
    if (stroke != Stroke::dashed) {
        for (std::size_t i = 0; i < points.size(); ++i)
            step(i == 0 ? PathStep::Kind::move : PathStep::Kind::line, points[i]);
        add_shape(line_box, item(path), true);
        return;
    }
    bool drawing = true;
    double left = style.plot_dash;
    step(PathStep::Kind::move, points.front());
    for (std::size_t i = 1; i < points.size(); ++i) {
        Point from = points[i - 1];
        const Point to = points[i];
        double length = std::hypot(to.x - from.x, to.y - from.y);
        while (length > 0) {
            const double part = std::min(left, length);
            const Point next{from.x + (to.x - from.x) * part / length,
                             from.y + (to.y - from.y) * part / length};
            step(drawing ? PathStep::Kind::line : PathStep::Kind::move, next);
            from = next;
            length -= part;
            left -= part;
            if (left <= 0) {
                drawing = !drawing;
                left = style.plot_dash;
            }
        }
    }
    add_shape(line_box, item(path), true);
}

/// How far a mark's ink reaches from its middle, the width of its line with it.
double mark_reach(const PageStyle& style) {
    return style.plot_mark / 2 + style.plot_thin;
}

/// One plot, its left edge at `left`, in a width given; every row's axes begin at one height.
class PlotSetter {
  public:
    PlotSetter(const Plot& plot, const LayoutContext& context, double width, std::string name)
        : plot_(plot),
          context_(context),
          style_(context.style),
          width_(width),
          name_(std::move(name)) {
        title_ = context_.set(in_bold(plot_.title), width_, style_.normal, name_);
        note_ = context_.set(plot_.note, width_, style_.small, name_);
        for (const Plot::Panel& panel : plot_.panels)
            for (const Plot::Tick& tick : panel.ticks)
                label_width_ = std::max(label_width_, in_mm(words(tick).unbroken(), type().size));
    }

    [[nodiscard]] double title_height() const { return title_.lines * title_.leading; }

    /// Returns how far down it reaches.
    double put(LineBox& line_box, double left, double axes_top) const {
        begin(line_box, Role::paragraph);
        add(line_box, title_, {left, axes_top - PageStyle::step - title_height()}, context_);
        const std::size_t first = line_box.items.size();
        const double axes_left = left + label_width_ + style_.plot_label_gap;
        // The last figure of the axis below stands half beyond its end, and so does a mark.
        const double axes_right = left + width_ - last_label_overhang();
        double shares = 0;
        for (const Plot::Panel& panel : plot_.panels) shares += panel.share;
        const double gaps = style_.plot_panel_gap * (static_cast<double>(plot_.panels.size()) - 1);
        double top = axes_top;
        for (const Plot::Panel& panel : plot_.panels) {
            const double height = (style_.plot_height - gaps) * panel.share / shares;
            put_panel(line_box, panel, {axes_left, top, axes_right - axes_left, height}, left);
            top += height + style_.plot_panel_gap;
        }
        const double bottom = top - style_.plot_panel_gap;
        const double labels_bottom = put_ticks(line_box, axes_left, axes_right, bottom);
        make_figure(line_box, first, plot_.alternative);
        begin(line_box, Role::paragraph);
        const double note_top = labels_bottom + PageStyle::step / 2;
        add(line_box, note_, {left, note_top}, context_);
        return note_.lines == 0 ? labels_bottom : note_top + note_.lines * note_.leading;
    }

  private:
    [[nodiscard]] Type type() const {
        Type type = style_.small;
        type.colour = quiet;
        return type;
    }
    [[nodiscard]] const MeasuredText& words(const Plot::Tick& tick) const {
        return context_.words({{tick.label, false}}, name_);
    }
    [[nodiscard]] double last_label_overhang() const {
        double maximum = mark_reach(style_);
        for (const Plot::Tick& tick : plot_.ticks) {
            // How far this one reaches past the end depends on the width itself: enough is enough.
            const double share = (tick.at - plot_.low) / (plot_.high - plot_.low);
            const double half = in_mm(words(tick).unbroken(), type().size) / 2;
            maximum = std::max(maximum, half - (1 - share) * width_ / 2);
        }
        return maximum;
    }

    void put_panel(LineBox& line_box, const Plot::Panel& panel, const Box& box, double left) const {
        const auto place = [&](Plot::Point p) {
            return Point{box.x + (p.x - plot_.low) / (plot_.high - plot_.low) * box.width,
                         box.bottom() - (p.y - panel.low) / (panel.high - panel.low) * box.height};
        };
        const auto places = [&](const std::vector<Plot::Point>& points) {
            std::vector<Point> result;
            result.reserve(points.size());
            for (const Plot::Point& p : points) result.push_back(place(p));
            return result;
        };
        for (const Plot::Band& band : panel.bands) {
            auto outline = places(band.low);
            auto back = places(band.high);
            outline.insert(outline.end(), back.rbegin(), back.rend());
            if (outline.size() < 3) continue;
            Path path = polygon(outline);
            path.colour = band_grey;
            add_shape(line_box, item(path), true);
        }
        for (const Plot::Tick& tick : panel.ticks) {
            const double y = place({plot_.low, tick.at}).y;
            add_shape(line_box, level_line(box.x, box.right(), y, style_.hairline, hairline), true);
            Type right = type();
            right.alignment = Alignment::right;
            const TextLayout label = context_.set(words(tick), label_width_, right, name_);
            add(line_box, label, {left, y - label.leading / 2}, context_);
        }
        add_shape(line_box, level_line(box.x, box.right(), box.bottom(), style_.plot_axis, black),
                  true);
        add_shape(line_box,
                  item(Line{{box.x, box.y}, {box.x, box.bottom()}, style_.plot_axis, black}), true);
        for (const Plot::Curve& curve : panel.curves)
            add_curve(line_box, places(curve.points), curve.stroke, style_);
        for (const Plot::Marks& marks : panel.marks)
            for (const Point& at : places(marks.points))
                add_mark(line_box, marks.mark, at, style_.plot_mark);
    }

    /// Returns the bottom of the figures.
    double put_ticks(LineBox& line_box, double left, double right, double top) const {
        const double mark = style_.plot_label_gap / 2;
        double lines_bottom = top + mark;
        double free_from = -1e9;
        for (const Plot::Tick& tick : plot_.ticks) {
            const double x =
                left + (tick.at - plot_.low) / (plot_.high - plot_.low) * (right - left);
            add_shape(line_box, item(Line{{x, top}, {x, top + mark}, style_.plot_axis, black}),
                      true);
            const MeasuredText& label = words(tick);
            const double width = in_mm(label.unbroken(), type().size);
            if (x - width / 2 < free_from)
                throw LayoutError(
                    {{name_,
                      fmt::format("the figures under its axis stand too close, {:.1f} "
                                  "mm lie over each other",
                                  free_from - (x - width / 2)),
                      "use fewer plots in a row", width, 0}});
            free_from = x + width / 2 + 0.5;
            const TextLayout setting = context_.set(label, width, type(), name_);
            add(line_box, setting, {x - width / 2, top + mark}, context_);
            lines_bottom = std::max(lines_bottom, top + mark + setting.leading);
        }
        return lines_bottom;
    }

    const Plot& plot_;
    const LayoutContext& context_;
    const PageStyle& style_;
    double width_;
    std::string name_;
    TextLayout title_, note_;
    double label_width_ = 0;
};

}  // namespace

LineBoxes line_boxes_of(const document::Plots& plots, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    const int across = std::max(plots.across, 1);
    const double width = (style.width() - (across - 1) * style.column_gutter) / across;
    LineBoxes line_boxes;
    for (std::size_t first = 0; first < plots.plots.size();
         first += static_cast<std::size_t>(across)) {
        LineBox line_box;
        line_box.name = fmt::format("{}, row {}", name, line_boxes.size() + 1);
        line_box.before = style.before_plots;
        std::vector<PlotSetter> row;
        double axes_top = 0;
        for (std::size_t i = first;
             i < plots.plots.size() && i < first + static_cast<std::size_t>(across); ++i) {
            row.emplace_back(plots.plots[i], context, width, line_box.name);
            axes_top = std::max(axes_top, row.back().title_height() + PageStyle::step);
        }
        for (std::size_t i = 0; i < row.size(); ++i)
            line_box.height = std::max(
                line_box.height,
                row[i].put(line_box, static_cast<double>(i) * (width + style.column_gutter),
                           axes_top));
        line_boxes.push_back(std::move(line_box));
    }
    return line_boxes;
}

namespace {

/// Marks and their meanings side by side; nothing where they do not fit on one line.
LineBoxes key_in_line(const document::PlotKey& key, const LayoutContext& context,
                      const std::string& name) {
    const PageStyle& style = context.style;
    LineBox line_box;
    line_box.name = name;
    line_box.before = PageStyle::step;
    double left = 0;
    for (const document::PlotKey::Entry& entry : key.entries) {
        const TextLayout setting = context.set(entry.text, style.width(), style.small, name);
        const double middle = context.baseline(setting) -
                              in_mm(context.faces.regular->x_height(), style.small.size) / 2;
        const double indent = style.floor_mark * 1.2 + style.tick_gap / 2;
        if (setting.lines > 1 || left + indent + setting.width > style.width()) return {};
        const Mark* mark = std::get_if<Mark>(&entry.sign);
        if (mark == nullptr) {
            add_curve(line_box, {{left, middle}, {left + style.floor_mark, middle}},
                      std::get<Stroke>(entry.sign), style);
        } else {
            // A cross reaches a little beyond its square.
            add_mark(line_box, *mark, {left + style.floor_mark * 0.6, middle}, style.floor_mark);
        }
        add(line_box, setting, {left + indent, 0}, context);
        left += indent + setting.width + style.gutter;
        line_box.height = setting.leading;
    }
    return {std::move(line_box)};
}

}  // namespace

LineBoxes line_boxes_of(const document::PlotKey& key, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    if (key.in_line)
        if (LineBoxes line = key_in_line(key, context, name); !line.empty()) return line;
    const double indent = style.plot_sign + style.tick_gap;
    // A line's ink reaches beyond its ends by half its width.
    const double line_left = style.plot_curve / 2, line_right = style.plot_sign - line_left;
    const Type& type = style.small;
    LineBoxes line_boxes;
    for (const document::PlotKey::Entry& entry : key.entries) {
        LineBox line_box;
        line_box.name = fmt::format("{}, line {}", name, line_boxes.size() + 1);
        line_box.before = line_boxes.empty() ? style.before_paragraph : 0;
        line_box.keep = Keep::if_possible;
        const TextLayout setting =
            context.set(entry.text, style.width() - indent, type, line_box.name);
        const double middle =
            context.baseline(setting) - in_mm(context.faces.regular->x_height(), type.size) / 2;
        if (const Mark* mark = std::get_if<Mark>(&entry.sign)) {
            add_mark(line_box, *mark, {style.plot_sign / 2, middle}, style.plot_mark);
        } else {
            if (entry.band) {
                const double half = style.plot_mark / 2;
                add_shape(
                    line_box,
                    item(Rectangle{{0, middle - half, style.plot_sign, 2 * half}, true, band_grey}),
                    true);
            }
            add_curve(line_box, {{line_left, middle}, {line_right, middle}},
                      std::get<Stroke>(entry.sign), style);
        }
        add(line_box, setting, {indent, 0}, context);
        line_box.height = setting.lines * setting.leading;
        line_boxes.push_back(std::move(line_box));
    }
    if (!line_boxes.empty()) line_boxes.back().keep = Keep::free;
    return line_boxes;
}

}  // namespace gallipot::layout
