#include <algorithm>

#include "papers/layout/blocks.hpp"
#include "papers/layout/marks.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

Strips strips_of(const document::Code& code, const Press& press, const std::string& name) {
    const PageStyle& style = press.style;
    const auto symbol = std::make_shared<const qr::Symbol>(qr::encode(code.content));
    const double side = symbol->modules * style.code_module;
    const double zone = qr::quiet_zone * style.code_module;
    const double indent = side + zone;  // at its left lies the page's margin, clear enough
    Strip strip;
    strip.name = name;
    strip.before = style.before_columns;
    strip.height = side + 2 * zone;
    add_shape(strip, item(Code{{0, zone, side, side}, symbol}), true);
    double top = zone;
    for (const auto& line : code.lines) {
        const Setting setting = press.set(line, style.width() - indent, style.normal, name);
        add(strip, setting, {indent, top}, press);
        top += setting.lines * setting.leading + style.before_item;
    }
    strip.height = std::max(strip.height, top);
    return {strip};
}

}  // namespace gallipot::layout
