#pragma once

#include <cmath>

#include "fuzz.hpp"
#include "papers/layout/check.hpp"
#include "papers/layout/page.hpp"

namespace gallipot::fuzz {

/// Everything on the page, nothing over anything else, every figure a number.
inline void check_placed(const layout::Paper& paper) {
    const auto first = [](const std::vector<std::string>& faults) {
        return faults.empty() ? std::string() : faults.front();
    };
    require(!paper.pages.empty(), "a paper has a page");
    for (const auto& page : paper.pages) {
        for (const auto& item : page.items) {
            const auto& box = item.bounds;
            require(std::isfinite(box.x + box.y + box.width + box.height) && box.width >= 0 &&
                        box.height >= 0,
                    "an item has bounds");
            if (const auto* text = std::get_if<layout::Text>(&item.shape))
                require(text->size > 0 && std::isfinite(text->size + text->width),
                        "type has a size", text->text);
        }
        const auto stray = first(layout::strays(page, {0, 0, page.size.width, page.size.height}));
        require(stray.empty(), "everything lies on the page", stray);
        const auto overlap = first(layout::overlaps(page));
        require(overlap.empty(), "nothing lies over anything else", overlap);
    }
    for (const auto& mark : paper.bookmarks)
        require(mark.page >= 0 && mark.page < static_cast<int>(paper.pages.size()),
                "a bookmark leads to a page", mark.title);
}

}  // namespace gallipot::fuzz
