#include "papers/layout/chapters.hpp"

#include <algorithm>

namespace gallipot::layout {

Paper combine(const std::vector<Chapter>& chapters) {
    Paper all;
    if (chapters.empty()) return all;
    all.author = chapters.front().paper->author;
    all.language = chapters.front().paper->language;
    int before = 0;  // pages of the chapters so far
    for (const Chapter& chapter : chapters) {
        const auto& bookmarks = chapter.paper->bookmarks;
        // A chapter of one sheet is bookmarked by that sheet, which is called the same.
        const auto sheets = std::ranges::count(bookmarks, 0, &Bookmark::level);
        const bool own = sheets != 1 || bookmarks.front().title != chapter.bookmark;
        if (own) all.bookmarks.push_back({chapter.bookmark, before, 0, 0});
        for (Bookmark bookmark : bookmarks) {
            bookmark.page += before;
            if (own) ++bookmark.level;
            all.bookmarks.push_back(std::move(bookmark));
        }
        before += static_cast<int>(chapter.paper->pages.size());
    }
    return all;
}

}  // namespace gallipot::layout
