#include "papers/layout/blocks.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <type_traits>
#include <utility>

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
    Flow(const Press& press, const std::string& sheet, std::vector<Misfit>& misfits)
        : press_(press), names_(sheet), misfits_(misfits) {}

    void add(const std::vector<document::Block>& blocks) {
        for (const document::Block& block : blocks) std::visit(*this, block);
    }

    void operator()(const std::shared_ptr<const document::Group>& group) {
        const std::size_t first = strips.size();
        if (group) add(group->blocks);
        for (std::size_t i = first; i + 1 < strips.size(); ++i) {
            strips[i].keep = std::max(strips[i].keep, Keep::if_possible);
        }
    }

    template <class Block>
    void operator()(const Block& block) {
        const std::string name = names_(block);
        Strips made;
        try {
            made = strips_of(block, press_, name);
        } catch (const LayoutError& error) {
            misfits_.insert(misfits_.end(), error.misfits().begin(), error.misfits().end());
        }
        if (!made.empty() && after_heading_) made.front().before = press_.style.after_heading;
        after_heading_ = std::is_same_v<Block, document::Heading>;
        std::move(made.begin(), made.end(), std::back_inserter(strips));
    }

    Strips strips;

  private:
    const Press& press_;
    Names names_;
    std::vector<Misfit>& misfits_;
    bool after_heading_ = false;
};

}  // namespace

const Words& Press::words(const text::Runs& runs, std::string_view what) const {
    return *store(runs, language, what);
}

Setting Press::set(const Words& words, double measure, const Type& type,
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

Setting Press::set(const text::Runs& runs, double measure, const Type& type,
                   std::string_view what) const {
    return set(words(runs, what), measure, type, what);
}

double Press::baseline(const Type& type) const {
    return (type.leading + faces.regular->cap_height() * type.size) * mm_per_point / 2;
}

double Press::baseline(const Setting& setting) const {
    return (setting.leading + in_mm(faces.regular->cap_height(), setting.size)) / 2;
}

double Press::measure(const Type& type) const {
    return std::min(style.width(), in_mm(style.widest_text, type.size));
}

void add(Strip& strip, const Setting& setting, Point top_left, const Press& press) {
    for (Item item : setting.items) {
        move(item, top_left.x, top_left.y + press.baseline(setting));
        strip.items.push_back(std::move(item));
    }
}

Item level_line(double left, double right, double y, double width, Colour colour) {
    return item(Line{{left, y}, {right, y}, width, colour});
}

Strips strips_of(const document::Heading& heading, const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    Type type = style.large;
    type.balanced = true;
    const Setting setting = press.set(in_bold(heading.text), style.width(), type, name);
    Strip strip;
    strip.name = name;
    strip.before = style.before_heading;
    strip.keep = Keep::always;
    strip.bookmark = text::plain(heading.text);
    add(strip, setting, {0, 0}, press);
    const double rule = press.baseline(setting) + setting.depth() + style.heading_rule_drop;
    strip.items.push_back(level_line(0, style.width(), rule, style.rule, black));
    strip.height = rule + style.rule / 2;
    return {strip};
}

Strips strips_of(const document::Paragraph& paragraph, const Press& press,
                 const std::string& name) {
    Type type = press.style.normal;
    if (paragraph.voice == document::Voice::large) type = press.style.large;
    if (paragraph.voice == document::Voice::small) {
        type = press.style.small;
        type.colour = quiet;
    }
    // Small print runs as wide as the text above it: narrower would look like a column.
    const double measure = std::max(press.measure(type), press.measure(press.style.normal));
    const Setting setting = press.set(paragraph.text, measure, type, name);
    Strips strips(static_cast<std::size_t>(setting.lines));
    for (std::size_t i = 0; i < strips.size(); ++i) {
        strips[i].name = name;
        strips[i].height = setting.leading;
        // Neither the first nor the last line stands alone on a page.
        const bool beside_first = i == 0;
        const bool beside_last = i + 2 == strips.size();
        if (beside_first || beside_last) strips[i].keep = Keep::always;
    }
    if (strips.empty()) return strips;
    strips.front().before = press.style.before_paragraph;
    strips.back().keep = Keep::free;
    for (Item item : setting.items) {
        const double line = std::get<Text>(item.shape).origin.y / setting.leading;
        const auto index = static_cast<std::size_t>(std::lround(line));
        move(item, 0, press.baseline(setting) - static_cast<double>(index) * setting.leading);
        strips[index].items.push_back(std::move(item));
    }
    return strips;
}

Strips strips_of(const document::Banner& banner, const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    Type left_type = style.large;
    left_type.colour = white;
    left_type.balanced = true;
    Type right_type = style.title;
    right_type.colour = white;
    right_type.balanced = true;
    const double pad_left = 2 * style.banner_pad;
    const double inner = style.width() - 2 * pad_left;

    const Words& left_words = press.words(in_bold(banner.left), name);
    const Words& right_words = press.words(in_bold(banner.right), name);
    const double left_width = in_mm(left_words.unbroken(), left_type.size);
    const double right_width = in_mm(right_words.unbroken(), right_type.size);
    // Side by side while the left part keeps about half the band, else one below the other.
    const double beside = inner - right_width - style.column_gutter;
    const bool stacked = !right_words.empty() && beside < std::min(left_width, 0.45 * inner);

    const Setting left =
        press.set(left_words, stacked || right_words.empty() ? inner : beside, left_type, name);
    if (!stacked) right_type.alignment = Alignment::right;
    const Setting right = press.set(right_words, stacked ? inner : right_width, right_type, name);
    const double left_height = left.lines * left.leading;
    const double right_height = right.lines * right.leading;
    const double between = left.lines > 0 ? PageStyle::step : 0;
    const double height =
        stacked ? left_height + between + right_height : std::max(left_height, right_height);

    Strip strip;
    strip.name = name;
    strip.before = style.before_banner;
    strip.height = height + 2 * style.banner_pad;
    Item band = item(Rectangle{{0, 0, style.width(), strip.height}});
    band.backdrop = true;
    strip.items.push_back(std::move(band));
    const double top = style.banner_pad;
    if (stacked) {
        add(strip, left, {pad_left, top}, press);
        add(strip, right, {pad_left, top + left_height + between}, press);
    } else {
        add(strip, left, {pad_left, top + (height - left_height) / 2}, press);
        add(strip, right, {pad_left + inner - right_width, top + (height - right_height) / 2},
            press);
    }
    return {strip};
}

Strips strips_of(const document::Checklist& list, const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    const Type& type = style.normal;
    const double cap = in_mm(press.faces.regular->cap_height(), type.size);
    const double gap = in_mm(0.7, type.size);
    const double number_width =
        in_mm(press.faces.bold->advance(std::to_string(list.items.size())), type.size);
    const double after_box = list.boxes ? style.tick_box + style.tick_gap : 0;
    // A list must show where each item begins: by a box, a number, or else a dot.
    const bool dots = !list.boxes && !list.numbered;
    const double indent = after_box + (list.numbered || dots ? number_width + gap : 0);

    Strips strips;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
        Strip strip;
        strip.name = fmt::format("{}, item {}", name, i + 1);
        strip.before = i == 0 ? style.before_paragraph : style.before_item;
        const double middle = press.baseline(type) - cap / 2;
        if (list.boxes) {
            const Box box{style.tick_line / 2, middle - style.tick_box / 2,
                          style.tick_box - style.tick_line, style.tick_box};
            strip.items.push_back(item(Rectangle{box, false, black, style.tick_line}));
        }
        if (dots) {
            const double side = style.list_dot;
            const Box dot{(number_width - side) / 2, middle - side / 2, side, side};
            strip.items.push_back(item(Rectangle{dot, true, black, 0, side / 2}));
        }
        if (list.numbered) {
            Type right = type;
            right.alignment = Alignment::right;
            const text::Runs number{{std::to_string(i + 1), true}};
            add(strip, press.set(number, number_width, right, strip.name), {after_box, 0}, press);
        }
        const double measure = press.measure(type) - indent;
        const Setting setting = press.set(list.items[i], measure, type, strip.name);
        add(strip, setting, {indent, 0}, press);
        strip.height = std::max(setting.lines, 1) * setting.leading;
        strips.push_back(std::move(strip));
    }
    return strips;
}

namespace {

/// Side by side in columns of these widths.
Strip columns_box(const document::Columns& columns, const std::vector<double>& widths,
                  const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    const Type& type = style.normal;
    Strip strip;
    strip.name = name;
    strip.before = style.before_columns;
    double left = 0;
    for (std::size_t i = 0; i < columns.parts.size(); ++i) {
        const document::Columns::Part& part = columns.parts[i];
        const double measure = std::min(widths[i], press.measure(type));
        double top = 0;
        const Setting heading = press.set(in_bold(part.heading), measure, type, name);
        add(strip, heading, {left, top}, press);
        top += heading.lines * heading.leading;
        for (const text::Runs& line : part.lines) {
            if (top > 0) top += style.before_item;
            const Setting setting = press.set(line, measure, type, name);
            add(strip, setting, {left, top}, press);
            top += setting.lines * setting.leading;
        }
        strip.height = std::max(strip.height, top);
        left += widths[i] + style.column_gutter;
    }
    return strip;
}

/// So wide that whoever has more to say has more room; nothing where a word would not fit.
std::vector<double> widths_by_content(const document::Columns& columns, double room,
                                      const Press& press, const std::string& name) {
    constexpr double shared_alike = 0.6;
    const double size = press.style.normal.size;
    std::vector<double> amounts, widest;
    double sum = 0;
    for (const document::Columns::Part& part : columns.parts) {
        const Words& heading = press.words(in_bold(part.heading), name);
        double amount = heading.unbroken(), word = heading.widest();
        for (const text::Runs& line : part.lines) {
            const Words& measured = press.words(line, name);
            amount += measured.unbroken();
            word = std::max(word, measured.widest());
        }
        amounts.push_back(amount);
        widest.push_back(in_mm(word, size));
        sum += amount;
    }
    std::vector<double> widths;
    for (std::size_t i = 0; i < amounts.size(); ++i) {
        const double alike = 1.0 / static_cast<double>(amounts.size());
        const double share = sum > 0 ? amounts[i] / sum : alike;
        widths.push_back(room * (shared_alike * alike + (1 - shared_alike) * share));
        if (widths.back() < widest[i]) return {};
    }
    return widths;
}

}  // namespace

/// Equally wide, or by what they hold where that is lower.
Strips strips_of(const document::Columns& columns, const Press& press, const std::string& name) {
    if (columns.parts.empty()) return {};
    const auto count = static_cast<double>(columns.parts.size());
    const double room = press.style.width() - (count - 1) * press.style.column_gutter;
    const std::vector<double> equal(columns.parts.size(), room / count);
    Strip box = columns_box(columns, equal, press, name);
    const auto widths = widths_by_content(columns, room, press, name);
    if (widths.empty()) return {box};
    Strip other = columns_box(columns, widths, press, name);
    return {other.height < box.height - 1e-6 ? std::move(other) : std::move(box)};
}

Strips strips_of(const std::vector<document::Block>& blocks, const Press& press,
                 const std::string& sheet, std::vector<Misfit>& misfits) {
    Flow flow(press, sheet, misfits);
    flow.add(blocks);
    return std::move(flow.strips);
}

}  // namespace gallipot::layout
