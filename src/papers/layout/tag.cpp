#include "papers/layout/tag.hpp"

#include <algorithm>
#include <utility>

namespace gallipot::layout {

int add_tag(Tags& tags, Tag tag) {
    if (!tag.name.empty()) {
        const auto known = std::ranges::find_if(
            tags, [&](const Tag& one) { return one.name == tag.name && one.role == tag.role; });
        if (known != tags.end()) return static_cast<int>(known - tags.begin());
    }
    tags.push_back(std::move(tag));
    return static_cast<int>(tags.size()) - 1;
}

std::vector<int> add_tags(Tags& tags, const Tags& more) {
    std::vector<int> indexes;
    for (Tag tag : more) {
        if (tag.parent >= 0) tag.parent = indexes.at(static_cast<std::size_t>(tag.parent));
        indexes.push_back(add_tag(tags, std::move(tag)));
    }
    return indexes;
}

}  // namespace gallipot::layout
