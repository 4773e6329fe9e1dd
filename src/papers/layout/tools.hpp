#pragma once

#include <vector>

#include "papers/layout/blocks.hpp"

namespace gallipot::layout {

/// What is measured with, drawn small: a scoop or jug as often as it is used, then its name.
struct ToolsLayout {
    double width = 0, height = 0;  ///< mm
    std::vector<Item> items;       ///< from their top left
};

/// In rows of at most `width` mm; nothing where not even one fits.
ToolsLayout set_tools(const std::vector<document::Tool>& tools, double width,
                      const LayoutContext& context, const std::string& name);

}  // namespace gallipot::layout
