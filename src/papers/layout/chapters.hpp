#pragma once

#include <string>
#include <vector>

#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// A paper as part of a larger one.
struct Chapter {
    std::string bookmark;
    const Paper* paper = nullptr;
    std::string label{};  ///< its pages are called that and their number: "cards 1"
};

/// The frame of a paper of chapters: every chapter bookmarked, with its own bookmarks one level
/// below, and no pages: they are the chapters', one after another. Author and language are the
/// first one's; the title is left to be set.
Paper combine(const std::vector<Chapter>& chapters);

}  // namespace gallipot::layout
