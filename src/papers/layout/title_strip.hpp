#pragma once

#include <string>

#include "papers/document/content.hpp"
#include "papers/layout/blocks.hpp"

namespace gallipot::layout {

/// Kicker, title, aside and code of a sheet, kept with what follows. `what` names it.
LineBox title_strip(const document::Sheet& sheet, const LayoutContext& context,
                    const std::string& what);

}  // namespace gallipot::layout
