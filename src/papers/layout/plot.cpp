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
void add_curve(Strip& strip, const std::vector<Point>& points, Stroke stroke,
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
        add_shape(strip, item(path), true);
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
    add_shape(strip, item(path), true);
}

/// How far a mark's ink reaches from its middle, the width of its line with it.
double mark_reach(const PageStyle& style) {
    return style.plot_mark / 2 + style.plot_thin;
}

/// One plot, its left edge at `left`, in a width given; every row's axes begin at one height.
class PlotSetter {
  public:
    PlotSetter(const Plot& plot, const Press& press, double width, std::string name)
        : plot_(plot), press_(press), style_(press.style), width_(width), name_(std::move(name)) {
        title_ = press_.set(in_bold(plot_.title), width_, style_.normal, name_);
        note_ = press_.set(plot_.note, width_, style_.small, name_);
        for (const Plot::Panel& panel : plot_.panels)
            for (const Plot::Tick& tick : panel.ticks)
                label_width_ = std::max(label_width_, in_mm(words(tick).unbroken(), type().size));
    }

    [[nodiscard]] double title_height() const { return title_.lines * title_.leading; }

    /// Returns how far down it reaches.
    double put(Strip& strip, double left, double axes_top) const {
        add(strip, title_, {left, axes_top - PageStyle::step - title_height()}, press_);
        const double axes_left = left + label_width_ + style_.plot_label_gap;
        // The last figure of the axis below stands half beyond its end, and so does a mark.
        const double axes_right = left + width_ - last_label_overhang();
        double shares = 0;
        for (const Plot::Panel& panel : plot_.panels) shares += panel.share;
        const double gaps = style_.plot_panel_gap * (static_cast<double>(plot_.panels.size()) - 1);
        double top = axes_top;
        for (const Plot::Panel& panel : plot_.panels) {
            const double height = (style_.plot_height - gaps) * panel.share / shares;
            put_panel(strip, panel, {axes_left, top, axes_right - axes_left, height}, left);
            top += height + style_.plot_panel_gap;
        }
        const double bottom = top - style_.plot_panel_gap;
        const double labels_bottom = put_ticks(strip, axes_left, axes_right, bottom);
        const double note_top = labels_bottom + PageStyle::step / 2;
        add(strip, note_, {left, note_top}, press_);
        return note_.lines == 0 ? labels_bottom : note_top + note_.lines * note_.leading;
    }

  private:
    [[nodiscard]] Type type() const {
        Type type = style_.small;
        type.colour = quiet;
        return type;
    }
    [[nodiscard]] const Words& words(const Plot::Tick& tick) const {
        return press_.words({{tick.label, false}}, name_);
    }
    [[nodiscard]] double last_label_overhang() const {
        double most = mark_reach(style_);
        for (const Plot::Tick& tick : plot_.ticks) {
            // How far this one reaches past the end depends on the width itself: enough is enough.
            const double share = (tick.at - plot_.low) / (plot_.high - plot_.low);
            const double half = in_mm(words(tick).unbroken(), type().size) / 2;
            most = std::max(most, half - (1 - share) * width_ / 2);
        }
        return most;
    }

    void put_panel(Strip& strip, const Plot::Panel& panel, const Box& box, double left) const {
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
            add_shape(strip, item(path), true);
        }
        for (const Plot::Tick& tick : panel.ticks) {
            const double y = place({plot_.low, tick.at}).y;
            add_shape(strip, level_line(box.x, box.right(), y, style_.hairline, hairline), true);
            Type right = type();
            right.alignment = Alignment::right;
            const Setting label = press_.set(words(tick), label_width_, right, name_);
            add(strip, label, {left, y - label.leading / 2}, press_);
        }
        add_shape(strip, level_line(box.x, box.right(), box.bottom(), style_.plot_axis, black),
                  true);
        add_shape(strip, item(Line{{box.x, box.y}, {box.x, box.bottom()}, style_.plot_axis, black}),
                  true);
        for (const Plot::Curve& curve : panel.curves)
            add_curve(strip, places(curve.points), curve.stroke, style_);
        for (const Plot::Marks& marks : panel.marks)
            for (const Point& at : places(marks.points))
                add_mark(strip, marks.mark, at, style_.plot_mark);
    }

    /// Returns the bottom of the figures.
    double put_ticks(Strip& strip, double left, double right, double top) const {
        const double mark = style_.plot_label_gap / 2;
        double lines_bottom = top + mark;
        double free_from = -1e9;
        for (const Plot::Tick& tick : plot_.ticks) {
            const double x =
                left + (tick.at - plot_.low) / (plot_.high - plot_.low) * (right - left);
            add_shape(strip, item(Line{{x, top}, {x, top + mark}, style_.plot_axis, black}), true);
            const Words& label = words(tick);
            const double width = in_mm(label.unbroken(), type().size);
            if (x - width / 2 < free_from)
                throw LayoutError(
                    {{name_,
                      fmt::format("the figures under its axis stand too close, {:.1f} "
                                  "mm lie over each other",
                                  free_from - (x - width / 2)),
                      "use fewer plots in a row", width, 0}});
            free_from = x + width / 2 + 0.5;
            const Setting setting = press_.set(label, width, type(), name_);
            add(strip, setting, {x - width / 2, top + mark}, press_);
            lines_bottom = std::max(lines_bottom, top + mark + setting.leading);
        }
        return lines_bottom;
    }

    const Plot& plot_;
    const Press& press_;
    const PageStyle& style_;
    double width_;
    std::string name_;
    Setting title_, note_;
    double label_width_ = 0;
};

}  // namespace

Strips strips_of(const document::Plots& plots, const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    const int across = std::max(plots.across, 1);
    const double width = (style.width() - (across - 1) * style.column_gutter) / across;
    Strips strips;
    for (std::size_t first = 0; first < plots.plots.size();
         first += static_cast<std::size_t>(across)) {
        Strip strip;
        strip.name = fmt::format("{}, row {}", name, strips.size() + 1);
        strip.before = style.before_plots;
        std::vector<PlotSetter> row;
        double axes_top = 0;
        for (std::size_t i = first;
             i < plots.plots.size() && i < first + static_cast<std::size_t>(across); ++i) {
            row.emplace_back(plots.plots[i], press, width, strip.name);
            axes_top = std::max(axes_top, row.back().title_height() + PageStyle::step);
        }
        for (std::size_t i = 0; i < row.size(); ++i)
            strip.height =
                std::max(strip.height,
                         row[i].put(strip, static_cast<double>(i) * (width + style.column_gutter),
                                    axes_top));
        strips.push_back(std::move(strip));
    }
    return strips;
}

Strips strips_of(const document::PlotKey& key, const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    const double indent = style.plot_sign + style.tick_gap;
    // A line's ink reaches beyond its ends by half its width.
    const double line_left = style.plot_curve / 2, line_right = style.plot_sign - line_left;
    const Type& type = style.small;
    Strips strips;
    for (const document::PlotKey::Entry& entry : key.entries) {
        Strip strip;
        strip.name = fmt::format("{}, line {}", name, strips.size() + 1);
        strip.before = strips.empty() ? style.before_paragraph : 0;
        strip.keep = Keep::if_possible;
        const Setting setting = press.set(entry.text, style.width() - indent, type, strip.name);
        const double middle =
            press.baseline(setting) - in_mm(press.faces.regular->x_height(), type.size) / 2;
        if (const Mark* mark = std::get_if<Mark>(&entry.sign)) {
            add_mark(strip, *mark, {style.plot_sign / 2, middle}, style.plot_mark);
        } else {
            if (entry.band) {
                const double half = style.plot_mark / 2;
                add_shape(
                    strip,
                    item(Rectangle{{0, middle - half, style.plot_sign, 2 * half}, true, band_grey}),
                    true);
            }
            add_curve(strip, {{line_left, middle}, {line_right, middle}},
                      std::get<Stroke>(entry.sign), style);
        }
        add(strip, setting, {indent, 0}, press);
        strip.height = setting.lines * setting.leading;
        strips.push_back(std::move(strip));
    }
    if (!strips.empty()) strips.back().keep = Keep::free;
    return strips;
}

}  // namespace gallipot::layout
