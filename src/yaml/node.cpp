#include "yaml/node.hpp"

#include <algorithm>

namespace gallipot::yaml {

namespace {

auto entry_of(const Node& node, std::string_view key) {
    return std::find_if(node.entries.begin(), node.entries.end(),
                        [&](const auto& entry) { return entry.first.text == key; });
}

}  // namespace

const Node* Node::find(std::string_view key) const {
    const auto found = entry_of(*this, key);
    return found == entries.end() ? nullptr : &found->second;
}

const Node* Node::find_key(std::string_view key) const {
    const auto found = entry_of(*this, key);
    return found == entries.end() ? nullptr : &found->first;
}

}  // namespace gallipot::yaml
