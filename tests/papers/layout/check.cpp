#include "papers/layout/check.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace gallipot::layout {

namespace {

/// Ink that only touches is no overlap.
constexpr double touching = 0.01;

std::string describe(const Page& page, const Item& item) {
    const auto* text = std::get_if<Text>(&item.shape);
    return fmt::format(
        "{} in [{}] at {:.2f} {:.2f} ({:.2f} x {:.2f})",
        text == nullptr ? std::string("a shape") : "\"" + text->text + "\"",
        item.group < 0 ? "no group" : page.groups[static_cast<std::size_t>(item.group)],
        item.bounds.x, item.bounds.y, item.bounds.width, item.bounds.height);
}

}  // namespace

std::vector<std::string> overlaps(const Page& page) {
    std::vector<const Item*> items;
    for (const Item& item : page.items) {
        if (!item.backdrop) items.push_back(&item);
    }
    std::stable_sort(items.begin(), items.end(),
                     [](const Item* a, const Item* b) { return a->bounds.y < b->bounds.y; });
    std::vector<std::string> found;
    for (std::size_t i = 0; i < items.size(); ++i) {
        for (std::size_t j = i + 1; j < items.size(); ++j) {
            if (items[j]->bounds.y >= items[i]->bounds.bottom()) break;
            const bool text = std::holds_alternative<Text>(items[i]->shape) ||
                              std::holds_alternative<Text>(items[j]->shape);
            if (text && items[i]->bounds.overlaps(items[j]->bounds, touching)) {
                found.push_back(describe(page, *items[i]) + " lies over " +
                                describe(page, *items[j]));
            }
        }
    }
    return found;
}

std::vector<std::string> strays(const Page& page, const Box& allowed) {
    std::vector<std::string> found;
    for (const Item& item : page.items) {
        if (!allowed.contains(item.bounds, touching)) {
            found.push_back(describe(page, item) + " lies outside");
        }
    }
    return found;
}

std::vector<std::string> unnamed(const Page& page) {
    std::vector<std::string> found;
    for (const Item& item : page.items) {
        if (item.group < 0 && std::holds_alternative<Text>(item.shape)) {
            found.push_back(describe(page, item) + " has no group");
        }
    }
    return found;
}

}  // namespace gallipot::layout
