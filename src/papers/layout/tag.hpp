#pragma once

#include <cstdint>
#include <string>
#include <vector>

/// What a page's content is, for who hears it instead of seeing it.
namespace gallipot::layout {

/// The standard structure types that the papers use (PDF 32000-1:2008, 14.8.4).
enum class Role : std::uint8_t {
    heading1,
    heading2,
    paragraph,
    list,
    numbered_list,
    list_item,
    list_label,  ///< its number
    list_body,
    table,
    row,
    column_heading,
    cell,
    figure,
};

/// A piece of content within others. What has no tag is decoration or is said elsewhere.
struct Tag {
    Role role = Role::paragraph;
    int parent = -1;  ///< index of the tag it lies in, among the same tags and before it; -1: none
    /// Of what may go on: pieces of one name in a paper are one, a table over two pages. Else
    /// empty.
    std::string name;
    std::string alternative;  ///< of a figure: what it shows, in words
    std::string language{};   ///< BCP 47, where it is not the paper's
    bool operator==(const Tag&) const = default;
};
using Tags = std::vector<Tag>;

/// Adds a tag and says its index. One with a name is added once.
int add_tag(Tags& tags, Tag tag);

/// Adds tags to others; of each the index there.
std::vector<int> add_tags(Tags& tags, const Tags& more);

}  // namespace gallipot::layout
