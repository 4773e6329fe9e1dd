#pragma once

#include <string>
#include <vector>

#include "layout/page.hpp"

namespace gallipot::layout {

/// A paper as part of a larger one.
struct Chapter {
    std::string bookmark;
    Paper paper;
};

/// All chapters in one paper, each bookmarked with its own bookmarks one level below. Author and
/// language are the first one's; the title is left to be set.
Paper joined(const std::vector<Chapter>& chapters);

}  // namespace gallipot::layout
