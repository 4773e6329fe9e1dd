#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gallipot::job {

/// A text of the user's own that papers show: one for all of them, or one for each language.
class LocalText {
  public:
    LocalText() = default;
    /// One text for all languages.
    LocalText(std::string text) : main_(std::move(text)) {}
    LocalText(const char* text) : main_(text) {}
    /// By language tag (BCP 47), at least one. What is not said in the job's `main_language` is
    /// said there in the first of them.
    LocalText(std::vector<std::pair<std::string, std::string>> by_language,
              std::string_view main_language);

    /// What a paper in `language` shows, by the lookup of RFC 4647: "de-AT" finds de-AT, else de,
    /// else another region's German, else the text of the main language.
    [[nodiscard]] const std::string& in(std::string_view language) const;
    /// In the job's main language: what messages to the user quote, and what names are compared by.
    [[nodiscard]] const std::string& main() const { return main_; }

    /// Whether it was written as one text for all languages.
    [[nodiscard]] bool one_for_all() const { return by_language_.empty(); }
    /// Whether `text` is it, in whichever language.
    [[nodiscard]] bool says(std::string_view text) const;
    /// Whether there is a text of its own for papers in `language`.
    [[nodiscard]] bool has(std::string_view language) const { return find(language) != nullptr; }

    [[nodiscard]] bool empty() const { return main_.empty(); }
    bool operator==(const LocalText&) const = default;

  private:
    [[nodiscard]] const std::string* find(std::string_view language) const;

    std::string main_;
    std::vector<std::pair<std::string, std::string>> by_language_;
};

}  // namespace gallipot::job
