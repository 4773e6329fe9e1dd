#include <algorithm>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

LineBoxes line_boxes_of(const document::Code& code, const LayoutContext& context,
                        const std::string& name) {
    const PageStyle& style = context.style;
    const auto symbol = std::make_shared<const qr::Symbol>(qr::encode(code.content));
    const double side = symbol->modules * style.code_module;
    const double zone = qr::quiet_zone * style.code_module;
    const double indent = side + zone;  // at its left lies the page's margin, clear enough
    LineBox line_box;
    line_box.name = name;
    line_box.before = style.before_columns;
    line_box.height = side + 2 * zone;
    add_shape(line_box, item(Code{{0, zone, side, side}, symbol}), true);
    make_figure(line_box, 0, code.alternative);
    double top = zone;
    for (const auto& line : code.lines) {
        const TextLayout setting = context.set(line, style.width() - indent, style.normal, name);
        begin(line_box, Role::paragraph);
        add(line_box, setting, {indent, top}, context);
        top += setting.lines * setting.leading + style.before_item;
    }
    line_box.height = std::max(line_box.height, top);
    return {line_box};
}

}  // namespace gallipot::layout
