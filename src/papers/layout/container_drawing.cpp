#include <algorithm>
#include <cmath>
#include <optional>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"

namespace gallipot::layout {

namespace {

using document::ContainerDrawing;

// Sizes of the picture, in millimetres on paper.
constexpr double highest = 30, widest = 26;
constexpr double lid_high = 1.8, lid_over = 0.8;  // how high a lid is and how far it reaches out
constexpr double largest_lid = 20;                // seen from above
constexpr double wall_line = 0.35, leader_line = 0.15;
constexpr double least_hole = 0.9;
constexpr double to_words = 5;  // from the picture to the words beside it
constexpr double apart = 1.2;   // between those words
constexpr Colour bait{222, 222, 222};

/// Millimetres on paper for one of the container's: the same for all of a row.
double scale_of(const std::vector<ContainerDrawing>& drawings) {
    double scale = 1;
    for (const auto& one : drawings)
        scale = std::min({scale, highest / one.height_mm, widest / one.width_mm});
    return scale;
}

class ContainerSetter {
  public:
    ContainerSetter(const ContainerDrawing& drawing, double scale, const LayoutContext& context,
                    const std::string& name)
        : it_(drawing), context_(context), name_(name) {
        wall_.width = std::max(scale * drawing.width_mm, 6.0);
        wall_.height = std::max(scale * drawing.height_mm, 4.0);
        hole_ = std::max(scale * drawing.hole_mm, least_hole);
    }

    LineBox operator()() {
        box_.name = name_;
        box_.before = context_.style.before_paragraph;
        double top = 0;
        const auto write = [&](const text::StyledText& runs, const Type& type) {
            if (runs.empty()) return;
            const TextLayout setting = context_.set(runs, context_.style.width(), type, name_);
            add(box_, setting, {0, top}, context_);
            top += setting.lines * setting.leading;
        };
        write(in_bold(it_.title), context_.style.normal);
        wall_.x = lid_over + wall_line;
        wall_.y = top + 1 + lid_high;
        draw_wall();
        draw_top();
        if (!it_.label_on_lid) draw_label();
        top = std::max(wall_.bottom() + wall_line, words_beside(parts_of_side(), top + 1));
        if (it_.label_on_lid && lid_) {
            draw_lid_from_above(top + apart + 1);
            top = std::max(from_above_.bottom(), words_beside({label_part()}, from_above_.y));
        }
        if (!it_.note.empty()) top += 1;
        write(it_.note, context_.style.small);
        make_figure(box_, 0, it_.alternative);
        box_.height = top;
        return std::move(box_);
    }

  private:
    struct Part {
        const text::StyledText* words = nullptr;
        Point at;  ///< what of the picture they speak of
    };

    [[nodiscard]] double fill_line() const {
        return wall_.bottom() - std::clamp(it_.filled, 0.0, 1.0) * wall_.height;
    }
    [[nodiscard]] double hole_line() const { return (wall_.y + fill_line()) / 2; }

    void draw_wall() {
        const double fill = fill_line();
        Box inside{wall_.x, fill, wall_.width, wall_.bottom() - fill};
        add_shape(box_, item(Rectangle{inside, true, bait, 0, 0}), true);
        Path wall;
        wall.filled = false;
        wall.line_width = wall_line;
        wall.steps = {{PathStep::Kind::move, {wall_.x, wall_.y}, {}, {}},
                      {PathStep::Kind::line, {wall_.x, wall_.bottom()}, {}, {}},
                      {PathStep::Kind::line, {wall_.right(), wall_.bottom()}, {}, {}},
                      {PathStep::Kind::line, {wall_.right(), wall_.y}, {}, {}}};
        add_shape(box_, item(wall), true);
        add_shape(box_, item(Line{{wall_.x, fill}, {wall_.right(), fill}, 2 * wall_line, black}),
                  true);
        // Those on the side that is seen.
        const int seen = (it_.side_holes + 1) / 2;
        for (int i = 0; i < seen; ++i) {
            const double x = wall_.x + wall_.width * (i + 1) / (seen + 1);
            const double half = std::min(hole_, wall_.width / (seen + 1)) / 2;
            add_shape(
                box_,
                item(Rectangle{
                    {x - half, hole_line() - half, 2 * half, 2 * half}, true, black, 0, half}),
                true);
        }
    }

    void draw_top() {
        if (it_.top == ContainerDrawing::Top::open) return;
        lid_ = Box{wall_.x - lid_over, wall_.y - lid_high, wall_.width + 2 * lid_over, lid_high};
        add_shape(box_, item(Rectangle{*lid_, true, black, 0, 0.5}), true);
        if (it_.top != ContainerDrawing::Top::holed_lid) return;
        for (const double share : {0.3, 0.5, 0.7}) {
            const double x = lid_->x + share * lid_->width;
            add_shape(box_,
                      item(Rectangle{{x - hole_ / 2, lid_->y, hole_, lid_high}, true, white, 0, 0}),
                      true);
        }
    }

    /// As our labels look from afar: a black band over lines.
    void draw_label() {
        const double high = 0.62 * (wall_.bottom() - fill_line());
        Box label;
        label.width = 0.56 * wall_.width;
        label.height = std::max(high, 0.3 * wall_.height);
        label.x = wall_.x + (wall_.width - label.width) / 2;
        label.y = wall_.bottom() - 0.08 * wall_.height - label.height;
        add_shape(box_, item(Rectangle{label, true, white, 0, 0}), true);
        add_shape(box_, item(Rectangle{label, false, black, 0.2, 0}), true);
        const Box band{label.x, label.y, label.width, 0.28 * label.height};
        add_shape(box_, item(Rectangle{band, true, black, 0, 0}), true);
        for (const double share : {0.48, 0.66, 0.84})
            draw_words_of_label(label.y + share * label.height, label.x + 0.1 * label.width,
                                label.right() - 0.1 * label.width);
        label_ = label;
    }
    void draw_words_of_label(double y, double from, double to) {
        add_shape(box_, item(Line{{from, y}, {to, y}, 0.2, hairline}), true);
    }

    /// A round label in the middle of the lid, below the picture of the side.
    void draw_lid_from_above(double top) {
        const double side = std::min(lid_->width, largest_lid), radius = side / 2;
        from_above_ = {lid_->x + (lid_->width - side) / 2, top, side, side};
        const Point middle{from_above_.x + radius, top + radius};
        const auto ring = [&](double r, double line) {
            add_shape(
                box_,
                item(Rectangle{{middle.x - r, middle.y - r, 2 * r, 2 * r}, false, black, line, r}),
                true);
        };
        ring(radius - wall_line / 2, wall_line);
        const double r = 0.76 * radius;
        ring(r, 0.2);
        // The band: what of the label lies above a level line.
        constexpr int parts = 16;
        constexpr double pi = 3.14159265358979323846, from = pi * 0.15;
        std::vector<Point> band;
        for (int i = 0; i <= parts; ++i) {
            const double angle = from + (pi - 2 * from) * i / parts;
            band.push_back({middle.x - r * std::cos(angle), middle.y - r * std::sin(angle)});
        }
        add_shape(box_, item(polygon(band)), true);
        for (const double share : {-0.1, 0.2, 0.5}) {
            const double half = 0.8 * r * std::sqrt(1 - share * share);
            draw_words_of_label(middle.y + share * r, middle.x - half, middle.x + half);
        }
        label_ = Box{middle.x - r, middle.y - r, 2 * r, 2 * r};
    }

    [[nodiscard]] Part label_part() const {
        return {&it_.label,
                {label_->right(), label_->y + (it_.label_on_lid ? 0.5 : 0.66) * label_->height}};
    }
    [[nodiscard]] std::vector<Part> parts_of_side() const {
        std::vector<Part> parts;
        if (lid_ && !it_.lid.empty())
            parts.push_back({&it_.lid, {lid_->right(), lid_->y + lid_high / 2}});
        if (!it_.holes.empty())
            parts.push_back({&it_.holes, it_.side_holes > 0 ? Point{wall_.right(), hole_line()}
                                                            : Point{wall_.right(), wall_.y}});
        parts.push_back({&it_.fill, {wall_.right(), fill_line()}});
        if (label_ && !it_.label_on_lid) parts.push_back(label_part());
        return parts;
    }

    /// Words at the right, each level with what it speaks of or below the ones before.
    double words_beside(const std::vector<Part>& parts, double top) {
        const double left = wall_.right() + lid_over + to_words;
        const double room = context_.style.width() - left;
        const Type& type = context_.style.normal;
        for (const Part& part : parts) {
            if (part.words->empty()) continue;
            const TextLayout setting = context_.set(*part.words, room, type, name_);
            const double middle = setting.leading / 2;
            top = std::max(top, part.at.y - middle);
            const Point words{left - 1, top + middle}, turn{left - 2.5, top + middle};
            add_shape(box_, item(Line{part.at, turn, leader_line, quiet}), true);
            add_shape(box_, item(Line{turn, words, leader_line, quiet}), true);
            add(box_, setting, {left, top}, context_);
            top += setting.lines * setting.leading + apart;
        }
        return top - apart;
    }

    const ContainerDrawing& it_;
    const LayoutContext& context_;
    const std::string& name_;
    LineBox box_;
    Box wall_;
    double hole_ = 0;
    std::optional<Box> lid_, label_;
    Box from_above_;  ///< the lid
};

}  // namespace

LineBoxes line_boxes_of(const document::ContainerDrawings& drawings, const LayoutContext& context,
                        const std::string& name) {
    const double scale = scale_of(drawings.drawings);
    LineBoxes boxes;
    for (const auto& one : drawings.drawings)
        boxes.push_back(ContainerSetter(one, scale, context, name)());
    return boxes;
}

}  // namespace gallipot::layout
