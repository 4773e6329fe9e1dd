#include "papers/layout/blocks.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <span>
#include <type_traits>
#include <utility>

#include "papers/layout/side_by_side.hpp"

namespace gallipot::layout {

namespace {

/// Numbers blocks of a kind through a sheet: "Sweet liquid bait: table 2".
class Names {
  public:
    explicit Names(std::string sheet) : sheet_(std::move(sheet)) {}

    std::string operator()(const document::Heading& h) {
        return of("heading " + text::plain(h.text));
    }
    std::string operator()(const document::Paragraph&) { return next("paragraph"); }
    std::string operator()(const document::Banner&) { return next("banner"); }
    std::string operator()(const document::Checklist&) { return next("list"); }
    std::string operator()(const document::Table&) { return next("table"); }
    std::string operator()(const document::FillIn&) { return next("lines to fill in"); }
    std::string operator()(const document::Columns&) { return next("columns"); }
    std::string operator()(const document::Plots&) { return next("plots"); }
    std::string operator()(const document::PlotKey&) { return next("key"); }
    std::string operator()(const document::Signs&) { return next("signs"); }
    std::string operator()(const document::Code&) { return next("code"); }
    std::string operator()(const document::FloorDrawing&) { return next("floor plan"); }
    std::string operator()(const document::Beside&) { return next("pair"); }
    std::string operator()(const document::ContainerDrawings&) { return next("container"); }

  private:
    std::string of(const std::string& part) const { return sheet_ + ": " + part; }
    std::string next(const std::string& kind) {
        return of(fmt::format("{} {}", kind, ++counts_[kind]));
    }

    std::string sheet_;
    std::map<std::string, int> counts_;
};

/// Sets the blocks of a sheet one after another.
class Flow {
  public:
    Flow(const LayoutContext& context, const std::string& sheet, std::vector<Overflow>& overflows)
        : context_(&context), names_(sheet), overflows_(overflows) {}

    void add(std::span<const document::Block> blocks) {
        for (const document::Block& block : blocks) std::visit(*this, block);
    }

    /// What is added from now on is set in this one.
    void go_on_in(const LayoutContext& context) { context_ = &context; }

    void operator()(const std::shared_ptr<const document::Group>& group) {
        const std::size_t first = line_boxes.size();
        if (group) add(group->blocks);
        for (std::size_t i = first; i + 1 < line_boxes.size(); ++i) {
            line_boxes[i].keep = std::max(line_boxes[i].keep, Keep::if_possible);
        }
    }

    template <class Block>
    void operator()(const Block& block) {
        const std::string name = names_(block);
        LineBoxes made;
        try {
            made = line_boxes_of(block, *context_, name);
        } catch (const LayoutError& error) {
            overflows_.insert(overflows_.end(), error.overflows().begin(), error.overflows().end());
        }
        for (LineBox& line_box : made) tag_the_rest(line_box);
        if (!made.empty() && after_heading_) made.front().before = context_->style.after_heading;
        after_heading_ = std::is_same_v<Block, document::Heading>;
        std::move(made.begin(), made.end(), std::back_inserter(line_boxes));
    }

    LineBoxes line_boxes;

  private:
    /// Text that no block said anything else of is a paragraph.
    static void tag_the_rest(LineBox& line_box) {
        for (Item& item : line_box.items) {
            if (item.tag >= 0 || !std::holds_alternative<Text>(item.shape)) continue;
            item.tag = add_tag(line_box.tags, {Role::paragraph, -1, line_box.name, {}});
        }
    }

    const LayoutContext* context_;
    Names names_;
    std::vector<Overflow>& overflows_;
    bool after_heading_ = false;
};

}  // namespace

const MeasuredText& LayoutContext::words(const text::StyledText& runs,
                                         std::string_view what) const {
    return *store(runs, language, what);
}

TextLayout LayoutContext::set(const MeasuredText& words, double measure, const Type& type,
                              std::string_view what) const {
    Type fitting = type;
    for (const Type& smaller : style.sizes()) {
        if (in_mm(words.widest(), fitting.size) <= measure) break;
        if (smaller.size >= fitting.size) continue;
        fitting.size = smaller.size;
        fitting.leading = smaller.leading;
    }
    return layout::set(words, measure, fitting, what);
}

TextLayout LayoutContext::set(const text::StyledText& runs, double measure, const Type& type,
                              std::string_view what) const {
    return set(words(runs, what), measure, type, what);
}

double LayoutContext::baseline(const Type& type) const {
    return (type.leading + faces.regular->cap_height() * type.size) * mm_per_point / 2;
}

double LayoutContext::baseline(const TextLayout& setting) const {
    const double usual = (setting.leading + in_mm(faces.regular->cap_height(), setting.size)) / 2;
    // Marks that reach far stay within their line.
    return std::max(setting.ink.above, std::min(usual, setting.leading - setting.ink.below));
}

double LayoutContext::measure(const Type& type) const {
    return std::min(style.width(), in_mm(style.widest_text, type.size));
}

void add(LineBox& line_box, const TextLayout& setting, Point top_left,
         const LayoutContext& context) {
    for (Item item : setting.items) {
        move(item, top_left.x, top_left.y + context.baseline(setting));
        item.tag = line_box.tag;
        line_box.items.push_back(std::move(item));
    }
}

int begin(LineBox& line_box, Role role, int parent, std::string name) {
    line_box.tag = add_tag(line_box.tags, {role, parent, std::move(name), {}});
    return line_box.tag;
}

void make_figure(LineBox& line_box, std::size_t first, std::string alternative, int parent) {
    const int tag = add_tag(line_box.tags, {Role::figure, parent, {}, std::move(alternative)});
    for (std::size_t i = first; i < line_box.items.size(); ++i) line_box.items[i].tag = tag;
}

Item level_line(double left, double right, double y, double width, Colour colour) {
    return item(Line{{left, y}, {right, y}, width, colour});
}

LineBoxes line_boxes_of(const document::Paragraph& paragraph, const LayoutContext& context,
                        const std::string& name) {
    Type type = context.style.normal;
    if (paragraph.voice == document::Voice::large) type = context.style.large;
    if (paragraph.voice == document::Voice::small) {
        type = context.style.small;
        type.colour = quiet;
    }
    // Small print runs as wide as the text above it: narrower would look like a column.
    const double measure = std::max(context.measure(type), context.measure(context.style.normal));
    const TextLayout setting = context.set(paragraph.text, measure, type, name);
    LineBoxes line_boxes(static_cast<std::size_t>(setting.lines));
    for (std::size_t i = 0; i < line_boxes.size(); ++i) {
        line_boxes[i].name = name;
        line_boxes[i].height = setting.leading;
        // Neither the first nor the last line stands alone on a page.
        const bool beside_first = i == 0;
        const bool beside_last = i + 2 == line_boxes.size();
        if (beside_first || beside_last) line_boxes[i].keep = Keep::always;
    }
    if (line_boxes.empty()) return line_boxes;
    line_boxes.front().before = context.style.before_paragraph;
    line_boxes.back().keep = Keep::free;
    for (Item item : setting.items) {
        const double line = std::get<Text>(item.shape).origin.y / setting.leading;
        const auto index = static_cast<std::size_t>(std::lround(line));
        move(item, 0, context.baseline(setting) - static_cast<double>(index) * setting.leading);
        line_boxes[index].items.push_back(std::move(item));
    }
    return line_boxes;
}

LineBoxes line_boxes_of(const document::Banner& banner, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    Type left_type = style.large;
    left_type.colour = white;
    left_type.balanced = true;
    Type right_type = style.title;
    right_type.colour = white;
    right_type.balanced = true;
    const double pad_left = 2 * style.banner_pad;
    const double inner = style.width() - 2 * pad_left;

    const MeasuredText& left_words = context.words(in_bold(banner.left), name);
    const MeasuredText& right_words = context.words(in_bold(banner.right), name);
    const double left_width = in_mm(left_words.unbroken(), left_type.size);
    const double right_width = in_mm(right_words.unbroken(), right_type.size);
    // Side by side while the left part keeps about half the band, else one below the other.
    const double beside = inner - right_width - style.column_gutter;
    const bool stacked = !right_words.empty() && beside < std::min(left_width, 0.45 * inner);

    const TextLayout left =
        context.set(left_words, stacked || right_words.empty() ? inner : beside, left_type, name);
    if (!stacked) right_type.alignment = Alignment::right;
    if (stacked && right_width > inner) {
        // Rather on one line, smaller, though never smaller than what stands above it.
        const double smaller = 0.999 * inner / right_width;
        if (smaller * right_type.size >= left_type.size) {
            right_type.size *= smaller;
            right_type.leading *= smaller;
        }
    }
    const TextLayout right =
        context.set(right_words, stacked ? inner : right_width, right_type, name);
    const double left_height = left.lines * left.leading;
    const double right_height = right.lines * right.leading;
    const double between = left.lines > 0 ? PageStyle::step : 0;
    const double height =
        stacked ? left_height + between + right_height : std::max(left_height, right_height);

    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_banner;
    line_box.height = height + 2 * style.banner_pad;
    Item band = item(Rectangle{{0, 0, style.width(), line_box.height}});
    band.backdrop = true;
    line_box.items.push_back(std::move(band));
    const double top = style.banner_pad;
    begin(line_box, Role::paragraph);
    add(line_box, left, {pad_left, stacked ? top : top + (height - left_height) / 2}, context);
    begin(line_box, Role::paragraph);
    add(line_box, right,
        stacked ? Point{pad_left, top + left_height + between}
                : Point{pad_left + inner - right_width, top + (height - right_height) / 2},
        context);
    return {line_box};
}

namespace {

LineBoxes in_one_column(const document::Checklist& list, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    const Type& type = style.normal;
    const double cap = in_mm(context.faces.regular->cap_height(), type.size);
    const double gap = in_mm(0.7, type.size);
    const double number_width =
        in_mm(context.faces.bold->advance(std::to_string(list.items.size())), type.size);
    const double after_box = list.boxes ? style.tick_box + style.tick_gap : 0;
    // A list must show where each item begins: by a box, a number, or else a dot.
    const bool dots = !list.boxes && !list.numbered;
    const double indent = after_box + (list.numbered || dots ? number_width + gap : 0);

    LineBoxes line_boxes;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
        LineBox line_box;
        line_box.name = fmt::format("{}, item {}", name, i + 1);
        const int whole =
            begin(line_box, list.numbered ? Role::numbered_list : Role::list, -1, name);
        const int one = begin(line_box, Role::list_item, whole);
        line_box.before = i == 0 ? style.before_paragraph : style.before_item;
        const double middle = context.baseline(type) - cap / 2;
        if (list.boxes) {
            const Box box{style.tick_line / 2, middle - style.tick_box / 2,
                          style.tick_box - style.tick_line, style.tick_box};
            line_box.items.push_back(item(Rectangle{box, false, black, style.tick_line}));
        }
        if (dots) {
            const double side = style.list_dot;
            const Box dot{(number_width - side) / 2, middle - side / 2, side, side};
            line_box.items.push_back(item(Rectangle{dot, true, black, 0, side / 2}));
        }
        if (list.numbered) {
            Type right = type;
            right.alignment = Alignment::right;
            const text::StyledText number{{std::to_string(i + 1), true}};
            begin(line_box, Role::list_label, one);
            add(line_box, context.set(number, number_width, right, line_box.name), {after_box, 0},
                context);
        }
        const double measure = context.measure(type) - indent;
        const TextLayout setting = context.set(list.items[i], measure, type, line_box.name);
        begin(line_box, Role::list_body, one);
        add(line_box, setting, {indent, 0}, context);
        line_box.height = std::max(setting.lines, 1) * setting.leading;
        // Neither the first nor the last of several stands alone on a page.
        const std::size_t count = list.items.size();
        if (count > 3 && (i == 0 || i + 2 == count)) line_box.keep = Keep::always;
        line_boxes.push_back(std::move(line_box));
    }
    return line_boxes;
}

}  // namespace

LineBoxes line_boxes_of(const document::Checklist& list, const LayoutContext& context,
                        const std::string& name) {
    LineBoxes one = in_one_column(list, context, name);
    if (!list.may_halve) return one;
    const double half = (context.style.width() - context.style.column_gutter) / 2;
    const PageStyle narrow = as_wide_as(context.style, half);
    LineBoxes two =
        in_one_column(list, {narrow, context.faces, context.language, context.store}, name);
    if (auto box = in_two_columns(std::move(two), half + context.style.column_gutter);
        box.height < context.style.halves_below * height_of(one)) {
        box.name = name;
        return {std::move(box)};
    }
    return one;
}

namespace {

/// Side by side in columns of these widths.
LineBox columns_box(const document::Columns& columns, const std::vector<double>& widths,
                    const LayoutContext& context, const std::string& name) {
    const PageStyle& style = context.style;
    const Type& type = style.normal;
    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_columns;
    double left = 0;
    for (std::size_t i = 0; i < columns.parts.size(); ++i) {
        const document::Columns::Part& part = columns.parts[i];
        const double measure = std::min(widths[i], context.measure(type));
        double top = 0;
        const TextLayout heading = context.set(in_bold(part.heading), measure, type, name);
        begin(line_box, Role::paragraph);
        add(line_box, heading, {left, top}, context);
        top += heading.lines * heading.leading;
        for (const text::StyledText& line : part.lines) {
            if (top > 0) top += style.before_item;
            const TextLayout setting = context.set(line, measure, type, name);
            begin(line_box, Role::paragraph);
            add(line_box, setting, {left, top}, context);
            top += setting.lines * setting.leading;
        }
        line_box.height = std::max(line_box.height, top);
        left += widths[i] + style.column_gutter;
    }
    return line_box;
}

/// That share of the room alike, the rest to whoever has more to say; nothing where a word would
/// not fit.
std::vector<double> widths_by_content(const document::Columns& columns, double room, double alike,
                                      const LayoutContext& context, const std::string& name) {
    const double size = context.style.normal.size;
    std::vector<double> amounts, widest;
    double sum = 0;
    for (const document::Columns::Part& part : columns.parts) {
        const MeasuredText& heading = context.words(in_bold(part.heading), name);
        double amount = heading.unbroken(), word = heading.widest();
        for (const text::StyledText& line : part.lines) {
            const MeasuredText& measured = context.words(line, name);
            amount += measured.unbroken();
            word = std::max(word, measured.widest());
        }
        amounts.push_back(amount);
        widest.push_back(in_mm(word, size));
        sum += amount;
    }
    std::vector<double> widths;
    const double equal = 1.0 / static_cast<double>(amounts.size());
    for (std::size_t i = 0; i < amounts.size(); ++i) {
        const double share = sum > 0 ? amounts[i] / sum : equal;
        widths.push_back(room * (alike * equal + (1 - alike) * share));
        if (widths.back() < widest[i]) return {};
    }
    return widths;
}

}  // namespace

/// Equally wide, or more and more by what they hold where that is lower.
LineBoxes line_boxes_of(const document::Columns& columns, const LayoutContext& context,
                        const std::string& name) {
    if (columns.parts.empty()) return {};
    const auto count = static_cast<double>(columns.parts.size());
    const double room = context.style.width() - (count - 1) * context.style.column_gutter;
    const std::vector<double> equal(columns.parts.size(), room / count);
    LineBox box = columns_box(columns, equal, context, name);
    for (const double alike : {0.6, 0.3, 0.0}) {
        const auto widths = widths_by_content(columns, room, alike, context, name);
        if (widths.empty()) break;
        LineBox other = columns_box(columns, widths, context, name);
        if (other.height < box.height - 1e-6) box = std::move(other);
    }
    return {std::move(box)};
}

LineBoxes line_boxes_of(const std::vector<document::Block>& blocks, const LayoutContext& context,
                        const std::string& sheet, std::vector<Overflow>& overflows) {
    Flow flow(context, sheet, overflows);
    flow.add(blocks);
    return std::move(flow.line_boxes);
}

LineBoxes line_boxes_of(const std::vector<document::Block>& blocks, const LayoutContext& context,
                        std::size_t front, const LayoutContext& behind, const std::string& sheet,
                        std::vector<Overflow>& overflows) {
    Flow flow(context, sheet, overflows);
    const std::span<const document::Block> all(blocks);
    flow.add(all.first(std::min(front, all.size())));
    flow.go_on_in(behind);
    flow.add(all.subspan(std::min(front, all.size())));
    return std::move(flow.line_boxes);
}

}  // namespace gallipot::layout
