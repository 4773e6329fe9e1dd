#include "papers/layout/title_strip.hpp"

#include <algorithm>
#include <memory>
#include <optional>

#include "papers/layout/marks.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

namespace {

/// How wide the lines of the words may be, that of the title and what follows and the kicker's.
struct Widths {
    double kicker = 0, title = 0;
};

/// Kicker, title and aside, at the left.
LineBox words_of(const document::Sheet& sheet, const LayoutContext& context, const Widths& widths,
                 const std::string& what) {
    const PageStyle& style = context.style;
    Type kicker_type = style.small;
    kicker_type.colour = quiet;
    Type title_type = style.title;
    title_type.balanced = true;
    const double width = widths.title;
    LineBox line_box;

    const TextLayout kicker = context.set(sheet.kicker, widths.kicker, kicker_type, what);
    begin(line_box, Role::paragraph);
    add(line_box, kicker, {0, 0}, context);
    double top = kicker.lines * kicker.leading;
    if (kicker.lines > 0) top += style.after_kicker;
    const TextLayout title = context.set(in_bold(sheet.title), width, title_type, what);
    begin(line_box, Role::heading1);
    add(line_box, title, {0, top}, context);
    top += title.lines * title.leading;

    begin(line_box, Role::paragraph);
    const MeasuredText& aside = context.words(sheet.aside, what);
    Type aside_type = style.large;
    const double aside_width = in_mm(aside.unbroken(), aside_type.size);
    if (!aside.empty() && title.lines > 0 &&
        title.last_line_width + style.column_gutter + aside_width <= width) {
        // On the baseline of the title's last line.
        aside_type.alignment = Alignment::right;
        const TextLayout setting = context.set(aside, width, aside_type, what);
        const double title_baseline = top - title.leading + context.baseline(title);
        add(line_box, setting, {0, title_baseline - context.baseline(setting)}, context);
    } else if (!aside.empty()) {
        const TextLayout setting = context.set(aside, width, aside_type, what);
        top += style.before_aside;
        add(line_box, setting, {0, top}, context);
        top += setting.lines * setting.leading;
    }
    line_box.height = top;
    return line_box;
}

/// Where a code stands, and its caption.
struct Place {
    double module = 0;           ///< mm
    bool under_kicker = false;   ///< else beside it
    bool caption_below = false;  ///< else at its left
};

/// The words, and right of them the code with its caption. Its quiet zone lies in the page's
/// margins, above and at the right, and in the spaces round it.
LineBox with_code(const document::Sheet& sheet, const LayoutContext& context,
                  const std::shared_ptr<const qr::Symbol>& symbol, const Place& place,
                  const std::string& what) {
    const PageStyle& style = context.style;
    const double side = symbol->modules * place.module, zone = qr::quiet_zone * place.module;
    Type type = style.small;
    type.alignment = Alignment::right;
    type.balanced = true;
    text::StyledText words;
    for (const auto& line : sheet.code->lines) words.insert(words.end(), line.begin(), line.end());
    const MeasuredText& measured = context.words(words, what);
    const double measure = std::max(style.code_caption, in_mm(measured.widest(), type.size));
    TextLayout caption = context.set(measured, measure, type, what);
    // As narrow as it is: what is left is the title's.
    caption = context.set(measured, caption.width + PageStyle::step / 8, type, what);
    const double taken =
        place.caption_below ? std::max(side, caption.measure) : side + zone + caption.measure;

    const double beside = style.width() - taken - style.gutter - zone;
    LineBox line_box =
        words_of(sheet, context, {place.under_kicker ? style.width() : beside, beside}, what);
    double top = 0;
    if (place.under_kicker) {
        const TextLayout kicker = context.set(sheet.kicker, style.width(), style.small, what);
        if (kicker.lines > 0) top = kicker.lines * kicker.leading + zone;
    }
    const std::size_t first = line_box.items.size();
    add_shape(line_box, item(Code{{style.width() - side, top, side, side}, symbol}), true);
    make_figure(line_box, first, sheet.code->alternative);
    begin(line_box, Role::paragraph);
    const double caption_top = place.caption_below ? top + side + zone : top;
    const double right = place.caption_below ? style.width() : style.width() - side - zone;
    add(line_box, caption, {right - caption.measure, caption_top}, context);
    line_box.height =
        std::max({line_box.height, top + side, caption_top + caption.lines * caption.leading});
    return line_box;
}

}  // namespace

LineBox title_strip(const document::Sheet& sheet, const LayoutContext& context,
                    const std::string& what) {
    const PageStyle& style = context.style;
    std::optional<LineBox> best;
    if (sheet.code) {
        const auto symbol = std::make_shared<const qr::Symbol>(qr::encode(sheet.code->content));
        // Where it makes the strip the least high: what follows must not lose its size to it. Of
        // those alike the largest.
        for (const double module : style.head_modules)
            for (const bool under_kicker : {false, true})
                for (const bool caption_below : {false, true}) {
                    LineBox made = with_code(sheet, context, symbol,
                                             {module, under_kicker, caption_below}, what);
                    if (!best || made.height < best->height - 1e-6) best = std::move(made);
                }
    } else {
        best = words_of(sheet, context, {style.width(), style.width()}, what);
    }
    best->name = what;
    best->keep = Keep::always;
    return *std::move(best);
}

}  // namespace gallipot::layout
