#include <algorithm>

#include "papers/layout/blocks.hpp"

namespace gallipot::layout {

namespace {

/// Words and a line to write on after each, at the right end; how wide all of it is.
double add_fields(LineBox& line_box, const document::Heading& heading, double baseline,
                  const LayoutContext& context, const std::string& name) {
    const PageStyle& style = context.style;
    double right = style.width();
    for (auto field = heading.fields.rbegin(); field != heading.fields.rend(); ++field) {
        const TextLayout setting = context.set(*field, style.width(), style.small, name);
        begin(line_box, Role::paragraph);
        // The last one is for a time of day or a date.
        const bool last = field == heading.fields.rbegin();
        const double line = last ? style.short_field : style.long_field;
        line_box.items.push_back(level_line(right - line, right, baseline, style.thin_rule, quiet));
        right -= line + style.tick_gap / 2 + setting.width;
        add(line_box, setting, {right, baseline - context.baseline(setting)}, context);
        right -= style.gutter;
    }
    return style.width() - right;
}

}  // namespace

LineBoxes line_boxes_of(const document::Heading& heading, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    Type type = style.large;
    type.balanced = true;
    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_heading;
    line_box.keep = Keep::always;
    line_box.bookmark = text::plain(heading.text);
    const MeasuredText& words = context.words(in_bold(heading.text), name);
    // Fields stand on the first line; where they leave too little of it, on one of their own.
    LineBox fields;
    const double taken = heading.fields.empty()
                             ? 0
                             : add_fields(fields, heading, context.baseline(type), context, name);
    const bool beside = in_mm(words.unbroken(), type.size) <= style.width() - taken;
    double top = 0;
    if (!heading.fields.empty() && !beside) top = type.leading * mm_per_point;
    const TextLayout setting =
        context.set(words, beside ? style.width() - taken : style.width(), type, name);
    begin(line_box, Role::heading2);
    add(line_box, setting, {0, 0}, context);
    if (!heading.fields.empty() && !beside) {
        top += (setting.lines - 1) * setting.leading;
        for (Item& item : fields.items) move(item, 0, top);
    } else {
        top = setting.depth();
    }
    const auto tags = add_tags(line_box.tags, fields.tags);
    for (Item& item : fields.items) {
        if (item.tag >= 0) item.tag = tags[static_cast<std::size_t>(item.tag)];
        line_box.items.push_back(std::move(item));
    }
    // Below tails and marks.
    const double drop = std::max(style.heading_rule_drop, in_mm(words.ink().below, setting.size) +
                                                              style.rule / 2 + style.clear_of_rule);
    const double rule = context.baseline(setting) + top + drop;
    line_box.items.push_back(level_line(0, style.width(), rule, style.rule, black));
    line_box.height = rule + style.rule / 2;
    return {line_box};
}

}  // namespace gallipot::layout
