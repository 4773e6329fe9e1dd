#include "papers/layout/label_draw.hpp"

#include <algorithm>
#include <utility>

#include "papers/layout/mirror.hpp"
#include "papers/layout/pictogram.hpp"

namespace gallipot::layout {

namespace {

/// Space above a part over the distance of lines: within a group, between groups, and how often
/// that at most when there is room to spare.
constexpr double part_gap = 0.10;
constexpr double group_gap = 0.42;
constexpr double gap_most = 2.6;
/// Those spaces where there is least room, over the usual.
constexpr double tight = 0.3;
/// How far lines may be spread, over their usual distance.
constexpr double leading_most = 1.12;
/// Clear space below that number, in ems of the words.
constexpr double number_gap = 0.25;
constexpr double frame_corner = 0.8;  // mm

}  // namespace

double cap_depth(const Canvas& canvas, double size) {
    return in_mm(canvas.faces.bold->cap_height() + canvas.beyond.above, size);
}

double figure_depth(const Canvas& canvas, double size) {
    return in_mm(canvas.faces.bold->cap_height(), size);
}

double frame_foot_of(const Canvas& canvas) {
    return frame_foot + canvas.beyond.below;
}

double line_depth(const Canvas& canvas, double size) {
    return cap_depth(canvas, size) +
           in_mm(canvas.faces.bold->descent() + canvas.beyond.below, size);
}

double below_number(const Canvas& canvas, const SetPart& number, double number_size,
                    const SetWording& words, double size, double usual) {
    const double down = number.wordings.front().lines.front()->ink().below;
    const double up = words.lines.front()->ink().above;
    return std::max(usual, in_mm(down, number_size) + in_mm(up, size) - cap_depth(canvas, size));
}

const Step& step_of(const LabelWords& words, const Sizing& sizing) {
    const auto& steps = words.steps.at(static_cast<std::size_t>(sizing.run_on));
    return steps.at(std::min(static_cast<std::size_t>(sizing.step), steps.size() - 1));
}

namespace {

/// Puts a framed block's words into their frame, which reaches from one notch to the other.
/// `top` is that of the words' capitals if nothing stood above them.
void put_in_frame(Column::Block& block, const Canvas& canvas, const LabelWords& words,
                  const Sizing& sizing, double measure, const Notches& notches, double top) {
    const double em = block.size * mm_per_point;
    const FramePad clear = frame_pad(sizing.run_on);
    block.pad = clear.all * em;
    const double pad = block.pad + frame_line_mm;
    const double left = top < notches.left.height - 1e-9 ? notches.left.width : 0;
    const double right = top < notches.right.height - 1e-9 ? notches.right.width : 0;
    block.frame_left = left;
    block.frame_width = measure - left - right;
    block.left = left + pad;
    block.above = block.below = pad;
    block.measure = Measure(block.frame_width - 2 * pad);
    if (!block.words->number || !words.number) return;
    block.number = std::max(sizing.number * block.size, words.number->minimum);
    const double wide = in_mm(words.number->wordings.front().widest, block.number);
    const double high = figure_depth(canvas, block.number);
    const double apart = em;
    block.number_beside =
        block.measure.width - wide - apart >=
        std::max(block.words->wording.widest * em, clear.beside_least * block.measure.width);
    if (!block.number_beside) {
        block.above += high + below_number(canvas, *words.number, block.number,
                                           block.words->wording, block.size, clear.number * em);
        return;
    }
    double low = high + number_gap * em;         // of the lines beside it
    if (layout::least_leading(words.ink) > 0) {  // clear of its brackets
        const double down = words.number->wordings.front().lines.front()->ink().below;
        low = std::max(low, high + in_mm(down, block.number) + in_mm(words.ink.above, block.size) -
                                cap_depth(canvas, block.size));
    }
    for (double line = 0; line < low; line += block.leading)
        block.measure.insets.push_back({0, wide + apart});
    // The number must end within the frame too.
    const int lines = block.words->wording.lines_in(block.measure.over(em));
    const double depth = cap_depth(canvas, block.size) + (lines - 1) * block.leading;
    block.below += std::max(0.0, high - depth);
}

}  // namespace

Column column(const Canvas& canvas, const LabelWords& words, const Sizing& sizing, double measure,
              const Notches& notches) {
    Column made;
    if (words.number) made.number = &*words.number;
    double top = 0;  // of the block's first capitals
    for (const auto& from : step_of(words, sizing).blocks) {
        Column::Block block;
        block.words = &from;
        block.size = std::max(from.lead ? sizing.size * sizing.lead : sizing.size, from.minimum);
        const double em = block.size * mm_per_point;
        block.leading = sizing.leading * em;
        if (!made.blocks.empty()) {
            const auto& above = made.blocks.back();
            block.before = (above.words->group == from.group ? part_gap : group_gap) *
                           std::max(block.leading, above.leading) *
                           (sizing.run_on == RunOn::parts ? 1 : tight);
        }
        top += block.before;
        block.measure = measure;
        if (from.framed) {
            put_in_frame(block, canvas, words, sizing, measure, notches, top);
            top += block.above;
        } else {
            const double notched = std::max(notches.left.height, notches.right.height);
            for (double line = top; line < notched - 1e-9; line += block.leading)
                block.measure.insets.push_back(
                    {line < notches.left.height - 1e-9 ? notches.left.width : 0,
                     line < notches.right.height - 1e-9 ? notches.right.width : 0});
        }
        if (from.part == document::Part::place) {
            made.too_wide =
                std::max(made.too_wide, words.place.widest() * em - block.measure.at(0));
            block.lines = words.place.lines_in(block.measure.at(0) / em);
        } else {
            made.too_wide = std::max(made.too_wide, from.wording.widest * em - block.measure.at(0));
            block.lines = from.wording.lines_in(block.measure.over(em));
        }
        if (block.number > 0 && !block.number_beside)
            made.too_wide =
                std::max(made.too_wide, in_mm(words.number->wordings.front().widest, block.number) -
                                            block.measure.width);
        top += block.lines * block.leading + block.below;
        made.blocks.push_back(std::move(block));
    }
    made.too_wide = std::max(0.0, made.too_wide);
    if (made.blocks.empty()) return made;
    made.cap = cap_depth(canvas, made.blocks.front().size);
    made.descent =
        line_depth(canvas, made.blocks.back().size) - cap_depth(canvas, made.blocks.back().size);
    // From block to block the lines keep the distance of the block they belong to.
    made.height = made.cap - made.blocks.front().leading + made.descent;
    for (const auto& block : made.blocks)
        made.height += block.before + block.above + block.lines * block.leading + block.below;
    return made;
}

double add_wording(Drawn& drawn, const SetWording& wording, document::Part part, double size,
                   double leading, double left, const Measure& measure, double baseline,
                   Alignment alignment, bool balanced) {
    int lines = 0;
    for (const auto& line : wording.lines) {
        // A language that runs the other way begins at the other side.
        const bool turned = line->begins_at_right() != drawn.right_to_left;
        const Type type{size, leading / mm_per_point,
                        turned && alignment == Alignment::left ? Alignment::right : alignment,
                        black, balanced};
        const auto setting = set(*line, measure.below(lines), type, "label");
        lines += setting.lines;
        for (auto made : setting.items) {
            move(made, left, baseline);
            made.group = static_cast<int>(part);
            drawn.items.push_back(std::move(made));
        }
        baseline += setting.lines * leading;
    }
    return baseline;
}

namespace {

Alignment mirrored(Alignment alignment) {
    switch (alignment) {
        case Alignment::left:
            return Alignment::right;
        case Alignment::right:
            return Alignment::left;
        case Alignment::centre:
            break;
    }
    return alignment;
}

}  // namespace

void mirror(Drawn& drawn, double width) {
    mirror(drawn.items, std::vector<int>(drawn.items.size(), -1), width);
    for (BandText& id : drawn.ids) {
        mirror(id.room, width);
        id.alignment = mirrored(id.alignment);
    }
    for (PlaceText& place : drawn.places) {
        place.left = width - place.left - place.measure.width;
        for (auto& inset : place.measure.insets) std::swap(inset.left, inset.right);
        place.alignment = mirrored(place.alignment);
    }
    for (Box& code : drawn.codes) mirror(code, width);
}

double mirrored(const Canvas& canvas, double left, double wide, double width) {
    return canvas.right_to_left ? width - left - wide : left;
}

FramePad frame_pad(RunOn run_on) {
    if (run_on == RunOn::tight) return {0.28, 0.35, 0.25};
    return {};
}

Item frame(const Box& box) {
    Rectangle outline;
    outline.box = box;
    outline.filled = false;
    outline.line_width = frame_line_mm;
    outline.radius = frame_corner;
    Item made = item(outline);
    made.backdrop = true;
    made.group = frame_kind;
    return made;
}

namespace {

void add_frame(Drawn& drawn, const Canvas& canvas, const Column& column, const Column::Block& block,
               double room_left, double baseline, double last_baseline) {
    const double em = block.size * mm_per_point;
    const double inner = block.pad + frame_line_mm / 2;
    const double top = baseline - cap_depth(canvas, block.size) - block.above + frame_line_mm / 2;
    const double bottom =
        last_baseline + block.below - frame_line_mm / 2 + frame_foot_of(canvas) * em;
    drawn.items.push_back(frame({room_left + block.frame_left + frame_line_mm / 2, top,
                                 block.frame_width - frame_line_mm, bottom - top}));
    if (block.number <= 0) return;
    const SetWording& number = column.number->wordings.front();
    const double wide = in_mm(number.widest, block.number) + 0.01;
    const double left = room_left + block.left;
    const double at = block.number_beside ? left + block.measure.width - wide : left;
    const double capitals =
        block.number_beside ? baseline - cap_depth(canvas, block.size) : top + inner;
    add_wording(drawn, number, document::Part::number, block.number, block.leading, at, wide,
                capitals + figure_depth(canvas, block.number), Alignment::left);
}

}  // namespace

void add_column(Drawn& drawn, const Canvas& canvas, const Column& column, Box room) {
    if (column.blocks.empty()) return;
    double spare = room.height - column.height;
    double gaps = 0, lines = 0;
    for (const auto& block : column.blocks) {
        gaps += block.before;
        lines += block.lines * block.leading;
    }
    double gap_factor = 1;
    if (gaps > 0) {
        gap_factor = 1 + std::clamp(spare / gaps, 0.0, gap_most - 1);
        spare -= gaps * (gap_factor - 1);
    }
    const double line_factor = 1 + std::clamp(spare / lines, 0.0, leading_most - 1);
    double baseline = room.y + column.cap;
    for (std::size_t i = 0; i < column.blocks.size(); ++i) {
        const auto& block = column.blocks[i];
        if (i > 0) baseline += block.before * gap_factor;
        // The first line of a block follows the line above at the distance of its own leading.
        if (i > 0) baseline += (block.leading - column.blocks[i - 1].leading) * line_factor;
        baseline += block.above;
        const double leading = block.leading * line_factor;
        const double left = room.x + block.left;
        if (block.words->part == document::Part::place) {
            drawn.places.push_back(
                {block.size, leading, left, block.measure, baseline, Alignment::left});
            baseline += block.lines * leading;
            continue;
        }
        const double first = baseline;
        baseline = add_wording(drawn, block.words->wording, block.words->part, block.size, leading,
                               left, block.measure, baseline, Alignment::left);
        if (block.words->framed)
            add_frame(drawn, canvas, column, block, room.x, first, baseline - leading);
        baseline += block.below;
    }
}

void add_band_texts(Drawn& drawn, const BandPlan& band, Point at) {
    for (const auto& text : band.texts) {
        BandText placed = text;
        placed.room.x += at.x;
        placed.room.y += at.y;
        if (text.part == document::Part::id) {
            drawn.ids.push_back(placed);
            drawn.id_colours.push_back(white);
            continue;
        }
        const Type type{text.size, text.size * 1.2, text.alignment, white, false};
        for (auto made : set(*text.words, placed.room.width, type, "label").items) {
            move(made, placed.room.x, placed.room.bottom());
            made.group = static_cast<int>(text.part);
            drawn.items.push_back(std::move(made));
        }
    }
}

void add_pictograms(Drawn& drawn, safety::Pictogram which, Point at, double side) {
    for (auto made : pictogram(which, at, side)) {
        made.group = pictogram_kind;
        drawn.items.push_back(std::move(made));
    }
}

}  // namespace gallipot::layout
