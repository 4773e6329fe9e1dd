#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "papers/layout/page.hpp"

class QPDF;

namespace gallipot::pdf {

/// The standard structure type of a role (PDF 32000-1:2008, 14.8.4).
std::string_view structure_type(layout::Role role);

/// What the pages of a file are, for who has them read (14.7): the tree of their tags, and where in
/// the pages each one's content is marked.
class Structure {
  public:
    /// What is named alike before and after is not the same.
    void begin_chapter();
    /// The next page: its tags, and for each number that content is marked with there its tag.
    void add_page(const layout::Tags& tags, const std::vector<int>& tag_of_mark);
    /// A link on that page, from 0: in the order of its annotations there.
    void add_link(std::size_t page, const layout::Link& link);
    /// Puts all of it into the file that has these pages; `title` is of the whole.
    void write(QPDF& file, const std::string& title) const;

  private:
    /// Content on a page: marked with a number, or a link, counted from the page's first.
    struct Content {
        std::size_t page = 0;
        int mark = -1, link = -1;
    };
    struct Kid {
        std::optional<std::size_t> element;  ///< or else content
        Content content;
    };
    struct Element {
        layout::Role role = layout::Role::paragraph;
        std::optional<std::size_t> parent;  ///< none: the document's
        bool link = false;
        std::string alternative, language;
        std::vector<Kid> kids;
    };
    class Writer;

    std::size_t add(Element element);
    std::vector<Element> elements_;
    std::vector<Kid> tops_;
    std::map<std::pair<std::string, layout::Role>, std::size_t> named_;  ///< of this chapter
    struct OnPage {
        std::vector<std::size_t> of_tag, of_mark, of_link;  ///< elements
        std::vector<std::string> links_say;
    };
    std::vector<OnPage> pages_;
};

}  // namespace gallipot::pdf
