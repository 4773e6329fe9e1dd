#include "domain/yaml/node.hpp"

#include <algorithm>
#include <utility>

namespace gallipot::yaml {

Node::Node() = default;
Node::Node(const Node&) = default;
Node::Node(Node&&) noexcept = default;
Node& Node::operator=(const Node&) = default;
Node& Node::operator=(Node&&) noexcept = default;
Node::~Node() = default;

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

Node* Node::find(std::string_view key) {
    return const_cast<Node*>(std::as_const(*this).find(key));
}

const Node* Node::find_key(std::string_view key) const {
    const auto found = entry_of(*this, key);
    return found == entries.end() ? nullptr : &found->first;
}

}  // namespace gallipot::yaml
