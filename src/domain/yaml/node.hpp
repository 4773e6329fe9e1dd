#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/children.hpp"

namespace gallipot::yaml {

enum class Kind : std::uint8_t { null, scalar, sequence, mapping };

/// A YAML value with its place. A plain tree: aliases are already expanded (within limits).
struct Node {
    // Made in node.cpp, where a pair of nodes is a complete type.
    Node();
    Node(const Node&);
    Node(Node&&) noexcept;
    Node& operator=(const Node&);
    Node& operator=(Node&&) noexcept;
    ~Node();

    Kind kind = Kind::null;
    bool quoted = false;  ///< a scalar written in quotes or as a block: text, never a number
    diag::Place place;
    std::string text;                         ///< a scalar's own text, in normal form C
    Children<Node> items;                     ///< of a sequence
    Children<std::pair<Node, Node>> entries;  ///< of a mapping, in file order, keys unique

    /// The value under `key`, or null when it is not there.
    [[nodiscard]] const Node* find(std::string_view key) const;
    [[nodiscard]] Node* find(std::string_view key);
    /// The key's own node (for messages about the key itself), or null.
    [[nodiscard]] const Node* find_key(std::string_view key) const;
};

/// Bounds against hostile files; each has its own error.
struct Limits {
    std::size_t bytes = 4u << 20;  ///< of the file
    std::size_t line = 100'000;    ///< bytes in one line
    int depth = 40;
    std::size_t nodes = 1'000'000;   ///< counted after alias expansion
    std::size_t text_length = 4000;  ///< characters in one scalar
};

/// Reads one document. What is wrong goes to `out`: bad UTF-8, control or direction-changing
/// characters, tabs as indentation, duplicate keys, a second document, tags, merge keys and every
/// limit. The file is read to its end where that makes sense, so that what else is wrong in it can
/// be said in the same run: then the node is as it would be without the offending part. A file that
/// cannot be read to its end gives a null node and at least one error; an empty file gives a null
/// node and no error, as the caller knows what should have been there.
Node read(const diag::SourcePtr& source, diag::Diagnostics& out, const Limits& limits = {});

}  // namespace gallipot::yaml
