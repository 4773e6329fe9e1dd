#pragma once

#include <algorithm>
#include <array>

#include "papers/layout/page.hpp"
#include "papers/layout/typeset.hpp"

namespace gallipot::layout {

/// Every size and space of a flowed page, in one place. Type in points, the rest in millimetres.
/// Four sizes of type and no more; leadings and spaces are multiples of one step, so that lines
/// keep a rhythm down the page.
struct PageStyle {
    static constexpr double step = 3.25 * mm_per_point;  ///< a quarter of a line of running text

    Size page{210, 297};
    double margin = 17;  ///< left and right
    double margin_top = 16;
    double margin_bottom = 14;  ///< below the footer; home printers reach to about 13

    Type title{20, 22.75};
    Type large{12, 16.25};  ///< headings, banner, large paragraphs
    Type normal{9.5, 13};
    Type small{7.5, 9.75};  ///< the smallest permitted
    Type poster{28, 30};    ///< a number to call, beside a large picture; nothing else

    double least_leading = 0;  ///< times the size; more than the above where the script needs it
    double widest_text = 47;   ///< ems; longer lines are hard to read

    double rule = 0.35;        ///< under headings
    double thin_rule = 0.2;    ///< under column headings and over totals
    double hairline = 0.12;    ///< between rows
    double gutter = 5;         ///< between table columns, at least
    double column_gutter = 9;  ///< between columns side by side

    double before_sheet = 14 * step;  ///< that stands below another
    double before_heading = 6 * step;
    double after_heading = 1.5 * step;
    double heading_rule_drop = 1.5 * step;  ///< from a heading's baseline to its rule
    double clear_of_rule = 0.15;            ///< from ink to it, at the least
    double after_kicker = 1 * step;
    double before_aside = 1 * step;  ///< where it stands below the title
    double before_paragraph = 2 * step;
    double before_columns = 4 * step;
    double before_banner = 4 * step;
    double banner_pad = 2.5 * step;
    double before_table = 2 * step;
    double before_fill_in = 5 * step;
    double cell_pad = 1.25 * step;     ///< above and below the lines of a cell
    double before_item = 0.75 * step;  ///< between the items of a list
    double halves_below = 0.7;  ///< a list goes in two columns that take less than this share
    double tick_box = 3.3;      ///< side
    double tick_line = 0.25;
    double tick_gap = 2.4;    ///< from box to number or text
    double choice_box = 2.6;  ///< side of a box to tick among several words
    double choice_gap = 0.8;  ///< from it to its word
    double between_choices = 1.4;
    double long_field = 26;  ///< line to write on beside a heading: a name
    double short_field = 15;
    double list_dot = 1.1;  ///< across
    double write_line = 9;  ///< height of a line to write on
    double before_plots = 3 * step;
    double plot_height = 36;      ///< of the axes, all panels together
    double plot_label_gap = 1.2;  ///< between an axis and its figures
    double plot_panel_gap = 3.6;  ///< between panels
    double plot_axis = 0.2;       ///< widths of lines, marks across
    double plot_curve = 0.5;
    double plot_thin = 0.25;
    double plot_dash = 1.1;
    double plot_mark = 1.7;
    double plot_sign = 9;      ///< length of a line in the key
    double sign = 17;          ///< side of a picture beside words
    double sign_least = 12;    ///< the same beside long words
    double sign_large = 24;    ///< one to be seen from afar
    double code_module = 1.2;  ///< of a QR code beside words: read at arm's length
    /// Of one beside a title, to be read from near; the least is that of small labels.
    std::array<double, 5> head_modules{0.6, 0.55, 0.5, 0.45, 0.42};
    double code_caption = 24;      ///< width of its caption
    double floor_height = 150;     ///< of a floor plan's frame, at most
    double floor_pad = 2.9;        ///< from its frame to what is drawn
    double floor_mark = 2.4;       ///< across
    double sketch_pad = 5.6;       ///< floor_pad of a sketch: room for names outside the walls
    double sketch_mark = 2;        ///< floor_mark of a sketch
    Type sketch{7.5, 9};           ///< names on it, whatever the size of the text round it
    double floor_leader = 0.15;    ///< width of a line from a mark to its name
    double floor_walk = 0.35;      ///< width of the line of the walk
    double floor_bar = 1.2;        ///< height of the scale bar
    double write_row = 8.5;        ///< height of a table's row to write in
    double write_gutter = 2;       ///< between its columns
    double footer_gap = 5 * step;  ///< between text and footer, at least
    double footer_rule_gap = 1.5 * step;

    /// Text whose widest word does not fit is set in the next smaller of these.
    [[nodiscard]] std::array<Type, 4> sizes() const { return {title, large, normal, small}; }
    [[nodiscard]] double width() const { return page.width - 2 * margin; }
};

/// The same style with no line nearer to the next than that many times its size.
inline PageStyle with_leading(PageStyle style, double least) {
    for (Type* type : {&style.title, &style.large, &style.normal, &style.small})
        type->leading = std::max(type->leading, least * type->size);
    style.least_leading = least;
    return style;
}

/// The same with lists in two columns wherever that saves a little.
inline PageStyle in_columns(PageStyle style) {
    style.halves_below = 0.95;
    return style;
}

/// The same type with that share of the space between, and that share of the leading of running
/// text, for a sheet that just misses a page.
inline PageStyle tightened(PageStyle style, double share, double leading = 1) {
    for (Type* type : {&style.normal, &style.small, &style.large})
        type->leading = std::max(type->leading * leading, style.least_leading * type->size);
    for (double* space :
         {&style.before_sheet, &style.before_heading, &style.after_heading, &style.before_paragraph,
          &style.before_columns, &style.before_banner, &style.banner_pad, &style.before_fill_in,
          &style.cell_pad, &style.before_item, &style.footer_gap}) {
        *space *= share;
    }
    style.write_line = 8;  // less is hard to write on
    return style;
}

/// The same with running text of that size, and the others in keeping with it.
inline PageStyle with_text_of(PageStyle style, double points) {
    const double times = points / style.normal.size;
    style.normal = {points, points * 1.25};
    style.large = {style.large.size * (1 + (times - 1) / 1.6), 0};
    style.large.leading = style.large.size * 1.3;
    style.small = {style.small.size * (1 + (times - 1) / 1.6), 0};
    style.small.leading = style.small.size * 1.28;
    return with_leading(style, style.least_leading);
}

inline PageStyle a4_style() {
    return {};
}

inline PageStyle letter_style() {
    PageStyle style;
    style.page = {215.9, 279.4};
    return style;
}

}  // namespace gallipot::layout
