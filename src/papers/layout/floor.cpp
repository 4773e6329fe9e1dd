#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <limits>
#include <utility>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"
#include "papers/layout/name_places.hpp"

namespace gallipot::layout {

namespace {

using document::FloorDrawing;

/// The floor in metres, and its middle.
struct Extent {
    double left = 0, right = 0, low = 0, high = 0;
    [[nodiscard]] double width() const { return right - left; }
    [[nodiscard]] double height() const { return high - low; }
};

Extent extent_of(const FloorDrawing& floor) {
    constexpr double none = std::numeric_limits<double>::infinity();
    Extent all{none, -none, none, -none};
    const auto take = [&](const FloorDrawing::Point& p) {
        all = {std::min(all.left, p.x), std::max(all.right, p.x), std::min(all.low, p.y),
               std::max(all.high, p.y)};
    };
    for (const auto& room : floor.rooms)
        for (const auto& corner : room.outline) take(corner);
    for (const auto& spot : floor.spots) take(spot.at);
    return all;
}

constexpr Colour walk_grey{120, 120, 120};

class FloorSetter {
  public:
    FloorSetter(const FloorDrawing& floor, const LayoutContext& context, const std::string& name)
        : floor_(floor),
          context_(context),
          style_(context.style),
          name_(name),
          extent_(extent_of(floor)) {
        choose_scale();
    }

    LineBoxes operator()() {
        LineBox line_box;
        line_box.name = name_;
        line_box.before = style_.before_plots;
        line_box.keep = Keep::if_possible;
        const Box frame{0, 0, style_.width(), per_metre_ * extent_.height() + 2 * pad()};
        Rectangle border{inset(frame), false, hairline, style_.plot_axis, 0};
        add_shape(line_box, item(border), true);
        NamePlaces places(grown(frame, -2 * style_.plot_axis));
        put_walk(line_box, places);
        put_walls(line_box, places);
        // Names go over walls and marks over nothing, so both wait until all places are known.
        std::vector<Item> on_top;
        put_names(line_box, on_top, places);
        for (const auto& spot : floor_.spots)
            add_mark(line_box, spot.mark, place(spot.at), across());
        std::move(on_top.begin(), on_top.end(), std::back_inserter(line_box.items));
        make_figure(line_box, 0, floor_.alternative);
        line_box.height = frame.bottom();
        if (floor_.states_scale)
            line_box.height = put_scale(line_box, frame.bottom() + PageStyle::step);
        LineBoxes line_boxes{std::move(line_box)};
        if (!numbered_.empty()) line_boxes.push_back(list("names by number", {}, numbered_));
        if (!roomless_.empty())
            line_boxes.push_back(list("names without room", floor_.no_room, roomless_));
        return line_boxes;
    }

  private:
    static Box grown(const Box& box, double by) {
        return {box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by};
    }
    /// From the frame to what is drawn.
    [[nodiscard]] double pad() const {
        return floor_.states_scale ? style_.floor_pad : style_.sketch_pad;
    }
    /// Of names.
    [[nodiscard]] const Type& type() const {
        return floor_.states_scale ? style_.small : style_.sketch;
    }
    /// Of a mark.
    [[nodiscard]] double across() const {
        return floor_.states_scale ? style_.floor_mark : style_.sketch_mark;
    }
    [[nodiscard]] Box inset(const Box& box) const { return grown(box, -style_.plot_axis / 2); }

    void choose_scale() {
        const double room = style_.width() - 2 * pad();
        const double highest = floor_.highest > 0 ? floor_.highest : style_.floor_height;
        const double up = highest - 2 * pad();
        const double needed = 1000 * std::max(extent_.width() / room, extent_.height() / up);
        if (!floor_.states_scale && needed > 0) {
            per_metre_ = 1000 / needed;
            return;
        }
        for (const auto& scale : floor_.scales) {
            if (scale.one_to < needed) continue;
            scale_ = &scale;
            per_metre_ = 1000 / scale.one_to;
            return;
        }
        throw LayoutError({{name_,
                            fmt::format("the floor is {:.0f} m by {:.0f} m, which fits at 1:{:.0f} "
                                        "and no larger; the smallest scale is 1:{:.0f}",
                                        extent_.width(), extent_.height(), std::ceil(needed),
                                        floor_.scales.empty() ? 0 : floor_.scales.back().one_to),
                            "check its corners, or divide it into floors", needed, 0}});
    }

    /// From metres to the strip; the drawing stands in the middle of its frame.
    [[nodiscard]] Point place(const FloorDrawing::Point& p) const {
        const double left = (style_.width() - per_metre_ * extent_.width()) / 2;
        return {left + per_metre_ * (p.x - extent_.left),
                pad() + per_metre_ * (extent_.high - p.y)};
    }
    [[nodiscard]] std::vector<Point> places_of(const FloorDrawing::Room& room) const {
        std::vector<Point> corners;
        for (const auto& corner : room.outline) corners.push_back(place(corner));
        return corners;
    }

    /// Dashed, so that nobody takes it for a wall.
    void put_walk(LineBox& line_box, NamePlaces& places) const {
        for (std::size_t i = 1; i < floor_.walk.size(); ++i) {
            const Point from = place(floor_.walk[i - 1]), to = place(floor_.walk[i]);
            places.wall({from, to});
            const double length = std::hypot(to.x - from.x, to.y - from.y);
            const double dash = style_.plot_dash;
            for (double at = 0; at < length; at += 2 * dash) {
                const auto along = [&](double far) {
                    const double share = std::min(far, length) / length;
                    return Point{from.x + share * (to.x - from.x),
                                 from.y + share * (to.y - from.y)};
                };
                add_shape(line_box,
                          item(Line{along(at), along(at + dash), style_.floor_walk, walk_grey}),
                          true);
            }
        }
    }

    void put_walls(LineBox& line_box, NamePlaces& places) const {
        for (const auto& room : floor_.rooms) {
            const auto corners = places_of(room);
            Path walls = polygon(corners);
            walls.filled = false;
            walls.line_width = style_.rule;
            add_shape(line_box, item(walls), true);
            for (std::size_t i = 0; i < corners.size(); ++i)
                places.wall({corners[i], corners[(i + 1) % corners.size()]});
        }
        for (const auto& spot : floor_.spots) {
            const Point at = place(spot.at);
            const double half = across() / 2;
            places.mark({at.x - half, at.y - half, 2 * half, 2 * half});
        }
    }

    static Size size_of(const TextLayout& setting) {
        return {setting.width, setting.lines * setting.leading};
    }

    /// On white, so that no wall runs through it.
    void put_name(LineBox& line_box, std::vector<Item>& on_top, const TextLayout& setting,
                  const NamePlace& found) const {
        add_shape(line_box, item(Rectangle{found.box, true, white}), true);
        if (found.leader)
            add_shape(line_box,
                      item(Line{found.leader->from, found.leader->to, style_.floor_leader, quiet}),
                      true);
        LineBox text;
        // The setting's measure may be wider than what is set in it.
        double shift = 0;
        if (setting.measure > setting.width) shift = (setting.measure - setting.width) / 2;
        add(text, setting, {found.box.x - shift, found.box.y}, context_);
        std::move(text.items.begin(), text.items.end(), std::back_inserter(on_top));
    }

    /// The stations first, beside their marks; then the rooms, near their middle.
    void put_names(LineBox& line_box, std::vector<Item>& on_top, NamePlaces& places) {
        put_spots(line_box, on_top, places);
        for (const auto& room : floor_.rooms) {
            const auto corners = places_of(room);
            const auto inside = [&](const text::StyledText& name) {
                return put_inside(line_box, on_top, places, corners, name);
            };
            if (room.name.empty() || put_or_number(room.name, inside)) continue;
            // A sketch goes with a list that names the rooms.
            if (floor_.states_scale &&
                !put_near(line_box, on_top, places, middle_of(corners), 0, room.name))
                roomless_.push_back(text::plain(room.name));
        }
    }

    void put_spots(LineBox& line_box, std::vector<Item>& on_top, NamePlaces& places) {
        // So many marks leave no room for names.
        constexpr std::size_t most = 500;
        std::vector<TextLayout> settings;
        std::vector<NamePlaces::Named> wanted;
        std::vector<const FloorDrawing::Spot*> spots;
        for (const auto& spot : floor_.spots) {
            if (spot.name.empty()) continue;
            settings.push_back(on_one_line({{spot.name, true}}));
            wanted.push_back({place(spot.at), across(), size_of(settings.back())});
            spots.push_back(&spot);
        }
        std::vector<std::optional<NamePlace>> found(spots.size());
        if (spots.size() <= most) found = places.near(wanted);
        for (std::size_t i = 0; i < spots.size(); ++i) {
            if (found[i]) {
                put_name(line_box, on_top, settings[i], *found[i]);
                continue;
            }
            const auto beside = [&](const text::StyledText& name) {
                return spots.size() <= most &&
                       put_near(line_box, on_top, places, wanted[i].at, across(), name);
            };
            if (!put_or_number({{spots[i]->name, true}}, beside))
                roomless_.push_back(spots[i]->name);
        }
    }

    [[nodiscard]] TextLayout on_one_line(const text::StyledText& name) const {
        const MeasuredText& words = context_.words(name, name_);
        return layout::set(words, in_mm(words.unbroken(), type().size) + 0.01, type(), name_);
    }

    /// Puts the name where `put` finds room for it, else a number that is told below.
    template <typename Put>
    bool put_or_number(const text::StyledText& name, const Put& put) {
        if (put(name)) return true;
        // In brackets, which no station's name has.
        const std::string number = fmt::format("({})", numbered_.size() + 1);
        if (!put(text::StyledText{{number, false}})) return false;
        numbered_.push_back(number + ' ' + text::plain(name));
        return true;
    }

    bool put_near(LineBox& line_box, std::vector<Item>& on_top, NamePlaces& places, Point at,
                  double across, const text::StyledText& name) const {
        const TextLayout setting = on_one_line(name);
        const auto found = places.near(at, across, size_of(setting));
        if (found) put_name(line_box, on_top, setting, *found);
        return found.has_value();
    }

    /// In the room itself, on one line or on several.
    bool put_inside(LineBox& line_box, std::vector<Item>& on_top, NamePlaces& places,
                    const std::vector<Point>& corners, const text::StyledText& name) const {
        const MeasuredText& words = context_.words(name, name_);
        Type type = this->type();
        type.colour = quiet;
        type.alignment = Alignment::centre;
        const double whole = in_mm(words.unbroken(), type.size) + 0.01;
        const double minimum = in_mm(words.widest(), type.size) + 0.01;
        for (const double measure : {whole, std::max(whole / 2, minimum), minimum}) {
            const TextLayout setting = set(words, measure, type, name_);
            if (const auto found = places.within(corners, size_of(setting))) {
                put_name(line_box, on_top, setting, *found);
                return true;
            }
        }
        return false;
    }

    /// A point inside, near the middle where that is not.
    static Point middle_of(const std::vector<Point>& corners) {
        Point middle;
        for (const Point& p : corners) {
            middle.x += p.x / static_cast<double>(corners.size());
            middle.y += p.y / static_cast<double>(corners.size());
        }
        if (inside(corners, middle)) return middle;
        for (std::size_t i = 0; i + 2 < corners.size(); ++i) {
            const Point p{(corners[i].x + corners[i + 1].x + corners[i + 2].x) / 3,
                          (corners[i].y + corners[i + 1].y + corners[i + 2].y) / 3};
            if (inside(corners, p)) return p;
        }
        return corners.front();
    }

    /// The scale in words and as a bar; returns its bottom.
    double put_scale(LineBox& line_box, double top) const {
        const double bar = scale_->bar * per_metre_;
        const double middle = top + context_.baseline(style_.small) -
                              in_mm(context_.faces.regular->x_height(), style_.small.size) / 2;
        // Four parts, by turns black and white.
        for (int i = 0; i < 4; ++i) {
            const Box part{i * bar / 4, middle - style_.floor_bar / 2, bar / 4, style_.floor_bar};
            add_shape(line_box, item(Rectangle{part, i % 2 == 0, black, style_.plot_axis, 0}),
                      true);
        }
        const double left = bar + style_.tick_gap;
        const TextLayout bar_text =
            context_.set(scale_->bar_text, style_.width() - left, style_.small, name_);
        add(line_box, bar_text, {left, top}, context_);
        const double then = left + bar_text.width + style_.gutter;
        Type type = style_.small;
        const TextLayout text = context_.set(scale_->text, style_.width() - then, type, name_);
        add(line_box, text, {then, top}, context_);
        return top + std::max(bar_text.lines * bar_text.leading, text.lines * text.leading);
    }

    [[nodiscard]] LineBox list(const char* what, text::StyledText line,
                               const std::vector<std::string>& names) const {
        if (!line.empty()) line.push_back({" ", false});
        line.push_back({fmt::format("{}", fmt::join(names, floor_.comma)), true});
        LineBox line_box;
        line_box.name = fmt::format("{}, {}", name_, what);
        const TextLayout setting = context_.set(line, style_.width(), style_.small, line_box.name);
        add(line_box, setting, {0, 0}, context_);
        line_box.height = setting.lines * setting.leading;
        return line_box;
    }

    const FloorDrawing& floor_;
    const LayoutContext& context_;
    const PageStyle& style_;
    const std::string& name_;
    Extent extent_;
    const FloorDrawing::Scale* scale_ = nullptr;
    double per_metre_ = 0;               // millimetres on paper
    std::vector<std::string> numbered_;  ///< "(1) Store"
    std::vector<std::string> roomless_;
};

}  // namespace

LineBoxes line_boxes_of(const document::FloorDrawing& floor, const LayoutContext& context,
                        const std::string& name) {
    if (floor.rooms.empty() && floor.spots.empty()) return {};
    return FloorSetter(floor, context, name)();
}

}  // namespace gallipot::layout
