#include "papers/layout/label_draw.hpp"

#include <algorithm>

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

}  // namespace

double cap_depth(const Canvas& canvas, double size) {
    return canvas.faces.bold->cap_height() * size * mm_per_point;
}

double line_depth(const Canvas& canvas, double size) {
    return cap_depth(canvas, size) + canvas.faces.bold->descent() * size * mm_per_point;
}

const Step& step_of(const LabelWords& words, const Sizing& sizing) {
    return words.steps.at(static_cast<std::size_t>(sizing.run_on))
        .at(static_cast<std::size_t>(sizing.step));
}

Column column(const Canvas& canvas, const LabelWords& words, const Sizing& sizing, double measure,
              const Notches& notches) {
    Column made;
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
        const double notched = std::max(notches.left.height, notches.right.height);
        for (double line = top; line < notched - 1e-9; line += block.leading)
            block.measure.insets.push_back(
                {line < notches.left.height - 1e-9 ? notches.left.width : 0,
                 line < notches.right.height - 1e-9 ? notches.right.width : 0});
        made.too_wide = std::max(made.too_wide, from.wording.widest * em - block.measure.at(0));
        block.lines = from.wording.lines_in(block.measure.over(em));
        top += block.lines * block.leading;
        made.blocks.push_back(block);
    }
    made.too_wide = std::max(0.0, made.too_wide);
    if (made.blocks.empty()) return made;
    made.cap = cap_depth(canvas, made.blocks.front().size);
    made.descent =
        line_depth(canvas, made.blocks.back().size) - cap_depth(canvas, made.blocks.back().size);
    // From block to block the lines keep the distance of the block they belong to.
    made.height = made.cap - made.blocks.front().leading + made.descent;
    for (const auto& block : made.blocks) made.height += block.before + block.lines * block.leading;
    return made;
}

double add_wording(Drawn& drawn, const SetWording& wording, document::Part part, double size,
                   double leading, double left, const Measure& measure, double baseline,
                   Alignment alignment, bool balanced) {
    int lines = 0;
    for (const auto& line : wording.lines) {
        const Type type{size, leading / mm_per_point, alignment, black, balanced};
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

void add_column(Drawn& drawn, const Column& column, Box room) {
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
        baseline = add_wording(drawn, block.words->wording, block.words->part, block.size,
                               block.leading * line_factor, room.x, block.measure, baseline,
                               Alignment::left);
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
