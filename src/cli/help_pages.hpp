#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/session.hpp"

/// What `explain`, the manual and the reference pages tell beyond the table of keys. It stands in
/// templates/help, in English, a file for each kind.
namespace gallipot::cli {

enum class HelpKind { message, word, paper, key };

/// One page. What is not said of this kind is empty.
struct HelpPage {
    HelpKind kind = HelpKind::message;
    std::string name;               ///< "coarse-scale", "half in", "labels", "stations.*.near"
    std::string means;              ///< what it is
    std::string why;                ///< of a message: why it matters
    std::string next;               ///< of a message: what to do
    std::string when;               ///< of a paper: when it is used
    std::string about;              ///< of a key: more than the table's line
    std::string changes;            ///< of a key: what it alters
    std::vector<std::string> also;  ///< of a word: other names that find it
};

class HelpPages {
  public:
    /// Reads templates/help. Throws system::SystemError where a file is missing; what is wrong in
    /// one is our fault: std::logic_error.
    explicit HelpPages(const app::DataFolders& data);

    [[nodiscard]] const std::vector<HelpPage>& all() const { return pages_; }
    /// Null where there is none; letter case makes no difference.
    [[nodiscard]] const HelpPage* find(HelpKind kind, std::string_view name) const;
    /// Every name that finds a page of this kind.
    [[nodiscard]] std::vector<std::string> names(HelpKind kind) const;

  private:
    void read(const std::string& file, HelpKind kind);
    std::vector<HelpPage> pages_;
};

/// Where the example jobs use a key first: the line as it stands, and where. None: nowhere.
struct Used {
    std::string line, where;  ///< "lasts: 7 d", "hall.yaml, line 42"
};
std::optional<Used> used_in_examples(const app::DataFolders& data, std::string_view path);

/// Messages, words and papers as a page of Markdown: src/cli/MESSAGES.md.
std::string reference_page(const HelpPages& pages);

}  // namespace gallipot::cli
