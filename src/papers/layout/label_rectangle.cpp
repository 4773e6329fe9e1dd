#include "papers/layout/label_rectangle.hpp"

#include <algorithm>

#include "papers/layout/mirror.hpp"
#include "papers/layout/pictogram.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

namespace {

using templates::CodePlace;

/// Size of the caption over that of the running words.
constexpr double caption_factor = 0.85;
constexpr double band_corner = 0.8;  // mm
/// Space between band and words beyond the gap, over the first line's leading.
constexpr double air = 0.35;
constexpr double hair = 0.01;  // mm, so that a text set in its own width fits

}  // namespace

RectangleArrangement::RectangleArrangement(const Canvas& canvas, const Contents& contents,
                                           Box label, Box inner)
    : Arrangement(canvas, contents), label_(label), inner_(inner) {}

double RectangleArrangement::gap() const {
    return std::clamp(0.028 * std::min(inner_.width, inner_.height), 0.8, 2.5);
}

BandPlan RectangleArrangement::band(const Sizing& sizing, double width) const {
    const double wished = std::clamp(sizing.signal * sizing.size, contents_.band_minimum,
                                     std::max(contents_.band_minimum, canvas_.design.band_largest));
    return plan_band(contents_.words, width, wished,
                     canvas_.design.band_height.fraction * label_.height);
}

void RectangleArrangement::side_code(Plan& plan, const Sizing& sizing, int beside) const {
    const bool of_all = plan.place == CodePlace::left_of_all;
    const double extent = pictogram_extent(sizing.pictogram);
    const int under = static_cast<int>(contents_.pictograms.size()) - beside;
    const double zone = qr::quiet_zone * sizing.module;
    const double width = contents_.modules * sizing.module;

    // Across: a column as wide as the widest of code and pictograms, then the words.
    double middle = inner_.x + extent / 2;
    double words_left = inner_.x;
    if (contents_.modules > 0) {
        const double left = std::max(inner_.x, label_.x + zone);
        middle = std::max(left + width / 2, under > 0 ? middle : 0);
        words_left = middle + width / 2 + std::max(zone, gap());
        plan.shortfall.width = std::max(plan.shortfall.width,
                                        width - canvas_.design.code_widest.fraction * label_.width);
    }
    if (under > 0) words_left = std::max(words_left, middle + extent / 2 + gap());
    if (plan.caption != nullptr) {
        // As wide as its widest word, at the least.
        const double half = plan.caption->widest * plan.caption_size * mm_per_point / 2 + hair;
        const double right = std::max(0.0, inner_.x + half - middle);
        middle += right;
        words_left = std::max(words_left + right, middle + half + gap());
    }

    plan.band_at = {of_all ? words_left : inner_.x, inner_.y};
    plan.band = band(sizing, inner_.right() - plan.band_at.x);
    const double below_band = inner_.y + plan.band.height;
    const double top = below_band + gap();
    plan.words = {words_left, top, inner_.right() - words_left, inner_.bottom() - top};

    // Down: code, caption, pictograms.
    double down = of_all ? inner_.y : top;
    double floor = inner_.bottom();
    double lacking = 0;
    if (contents_.modules > 0) {
        const double code_top = of_all ? std::max(inner_.y, label_.y + zone) : below_band + zone;
        plan.code = Box{middle - width / 2, code_top, width, width};
        down = plan.code->bottom() + zone;
        lacking = std::max({lacking, plan.code->bottom() - floor, down - label_.bottom()});
    }
    if (plan.caption != nullptr) {
        const double half = std::min(middle - inner_.x, words_left - gap() - middle);
        // Ascenders rise above capitals: not into the quiet zone.
        const double rise =
            plan.caption->lines.front()->ink().above * plan.caption_size * mm_per_point -
            cap_depth(canvas_, plan.caption_size);
        plan.caption_room = {middle - half, down + std::max(0.0, rise), 2 * half, 0};
        plan.caption_room.height = caption_depth(plan, 2 * half);
        down = plan.caption_room.bottom() + (under > 0 ? gap() / 2 : 0);
    }
    for (int i = 0; i < under; ++i) {
        plan.pictograms.push_back({middle - extent / 2, down});
        down += extent + (i + 1 < under ? gap() / 2 : 0);
    }
    if (under > 0 || plan.caption != nullptr) lacking = std::max(lacking, down - floor);
    double at = top;
    for (int i = 0; i < beside; ++i) {
        plan.pictograms.push_back({inner_.right() - extent, at});
        at += extent + gap() / 2;
    }
    if (beside > 0) {
        lacking = std::max(lacking, at - gap() / 2 - floor);
        plan.notches.right = {extent + gap(), at - top};
    }
    // What is run on goes on below code and pictograms, over the whole width.
    if (sizing.run_on != RunOn::parts && words_left > inner_.x) {
        plan.notches.left = {words_left - inner_.x, std::max(0.0, down + gap() - top)};
        plan.words.width += plan.words.x - inner_.x;
        plan.words.x = inner_.x;
    }
    plan.shortfall.height = std::max(plan.shortfall.height, lacking);
}

double RectangleArrangement::caption_depth(Plan& plan, double room) const {
    const double em = plan.caption_size * mm_per_point;
    plan.shortfall.width = std::max(plan.shortfall.width, plan.caption->widest * em - room);
    return (plan.caption->lines_in(room / em) - 1) * plan.caption_leading +
           line_depth(canvas_, plan.caption_size);
}

void RectangleArrangement::code_below(Plan& plan, const Sizing& sizing) const {
    plan.band_at = {inner_.x, inner_.y};
    plan.band = band(sizing, inner_.width);
    const double top = inner_.y + plan.band.height + gap();
    const double extent = pictogram_extent(sizing.pictogram);
    double row_top = inner_.bottom();
    double left = inner_.x;
    if (contents_.modules > 0) {
        const double zone = qr::quiet_zone * sizing.module;
        const double width = contents_.modules * sizing.module;
        const double bottom = std::min(inner_.bottom(), label_.bottom() - zone);
        plan.code = Box{std::max(inner_.x, label_.x + zone), bottom - width, width, width};
        row_top = plan.code->y - zone;
        left = plan.code->right() + std::max(zone, gap());
        const double widest = canvas_.design.code_widest.fraction * label_.width;
        plan.shortfall.width = std::max(plan.shortfall.width, width - widest);
    }
    double right = inner_.right();
    const double pictograms_top = inner_.bottom() - extent;
    for (std::size_t i = contents_.pictograms.size(); i > 0; --i) {
        plan.pictograms.insert(plan.pictograms.begin(), {right - extent, pictograms_top});
        right -= extent + gap() / 2;
    }
    if (!contents_.pictograms.empty()) {
        row_top = std::min(row_top, pictograms_top);
        plan.shortfall.width = std::max(plan.shortfall.width, left - (right + gap() / 2));
    }
    if (plan.caption != nullptr) {
        // Beside the code; over the pictograms where the row is higher than they are.
        const double code_top = plan.code ? plan.code->y : row_top;
        const bool over = !contents_.pictograms.empty() && code_top < pictograms_top;
        const double room = (over ? inner_.right() : right) - left;
        const double depth = caption_depth(plan, room);
        plan.caption_room = {left, code_top, room, depth};
        const double floor = over ? pictograms_top : inner_.bottom();
        if (code_top + depth > floor) {
            plan.caption_room.y = floor - depth;
            row_top = std::min(row_top, plan.caption_room.y);
        }
    }
    plan.words = {inner_.x, top, inner_.width, row_top - gap() - top};
}

RectangleArrangement::Plan RectangleArrangement::plan(const Sizing& sizing, CodePlace place,
                                                      int beside) const {
    // Without a code there is nothing to give the label's whole height to.
    if (contents_.modules == 0 && place == CodePlace::left_of_all) place = CodePlace::left;
    Plan made;
    made.place = place;
    made.caption = contents_.modules > 0 ? step_of(contents_.words, sizing).caption : nullptr;
    if (made.caption != nullptr) {
        made.caption_size =
            std::max(contents_.words.caption->minimum, caption_factor * sizing.size);
        made.caption_leading = sizing.leading * made.caption_size * mm_per_point;
    }
    if (place == CodePlace::bottom)
        code_below(made, sizing);
    else
        side_code(made, sizing, beside);
    made.column = column(canvas_, contents_.words, sizing, made.words.width, made.notches);
    made.shortfall.width =
        std::max({made.shortfall.width, made.band.too_wide, made.column.too_wide});
    made.shortfall.height = std::max(made.shortfall.height, made.column.height - made.words.height);
    return made;
}

RectangleArrangement::Plan RectangleArrangement::plan(const Sizing& sizing) const {
    const auto place =
        canvas_.design.code_places[static_cast<std::size_t>(sizing.place / pictograms_beside)];
    const int count = static_cast<int>(contents_.pictograms.size());
    const int beside =
        place == CodePlace::bottom ? 0 : std::min(sizing.place % pictograms_beside, count);
    return plan(sizing, place, beside);
}

Shortfall RectangleArrangement::shortfall(const Sizing& sizing) const {
    return plan(sizing).shortfall;
}

Drawn RectangleArrangement::draw_panel(const Sizing& sizing, Box& band) const {
    const auto made = plan(sizing);
    band = {made.band_at.x, made.band_at.y, inner_.right() - made.band_at.x, made.band.height};
    Drawn drawn;
    drawn.right_to_left = canvas_.right_to_left;
    add_band_texts(drawn, made.band, made.band_at);
    if (made.code) drawn.codes.push_back(*made.code);
    if (made.caption != nullptr)
        add_wording(drawn, *made.caption, document::Part::caption, made.caption_size,
                    made.caption_leading, made.caption_room.x, made.caption_room.width + hair,
                    made.caption_room.y + cap_depth(canvas_, made.caption_size),
                    made.place == CodePlace::bottom ? Alignment::left : Alignment::centre, true);
    // Level with the code's upper edge, or well clear of the band, where there is room for it.
    auto words = made.words;
    if (!made.column.blocks.empty()) {
        const double wished = made.code && made.place == CodePlace::left
                                  ? made.code->y - words.y
                                  : air * made.column.blocks.front().leading;
        const double down =
            std::clamp(words.height - made.column.height, 0.0, std::max(0.0, wished));
        words.y += down;
        words.height -= down;
    }
    add_column(drawn, canvas_, made.column, words);
    if (canvas_.right_to_left) {
        mirror(drawn, label_.width);
        mirror(band, label_.width);
    }
    for (std::size_t i = 0; i < made.pictograms.size(); ++i) {
        const Point& at = made.pictograms[i];
        const double wide = pictogram_extent(sizing.pictogram);
        add_pictograms(drawn, contents_.pictograms[i],
                       {mirrored(canvas_, at.x, wide, label_.width), at.y}, sizing.pictogram);
    }
    return drawn;
}

Drawn RectangleArrangement::draw(const Sizing& sizing) const {
    Rectangle ground;
    auto drawn = draw_panel(sizing, ground.box);
    ground.radius = band_corner;
    Item backdrop = item(ground);
    backdrop.backdrop = true;
    backdrop.group = band_kind;
    drawn.items.insert(drawn.items.begin(), std::move(backdrop));
    return drawn;
}

}  // namespace gallipot::layout
