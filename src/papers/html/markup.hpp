#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/strings/ascii.hpp"
#include "papers/text/catalog.hpp"

/// HTML that cannot be broken by what is put into it: text becomes markup only by being escaped.
namespace gallipot::html {

/// The name of a tag or an attribute. Only names that stand in our own source compile, and none
/// that runs or styles anything by itself.
class Name {
  public:
    template <std::size_t size>
    consteval Name(const char (&name)[size]) : name_(name, size - 1) {  // NOLINT: meant to convert
        for (const char c : name_)
            if (!strings::is_letter_or_digit(c) && c != '-') throw "not a name";
        if (name_.starts_with("on") || name_ == "style" || name_ == "script" || name_ == "iframe" ||
            name_ == "object" || name_ == "embed" || name_ == "srcdoc")
            throw "not in a page of ours";
    }
    [[nodiscard]] std::string_view text() const { return name_; }

  private:
    std::string_view name_;
};

/// name="value", the value escaped.
struct Attribute {
    Name name;
    std::string value;
};
using Attributes = std::vector<Attribute>;

/// A piece of markup.
class Html {
  public:
    Html() = default;
    // Text of any origin: shown as it is, whatever it holds.
    Html(std::string_view text);         // NOLINT(google-explicit-constructor)
    Html(const std::string& text);       // NOLINT(google-explicit-constructor)
    Html(const char* text);              // NOLINT(google-explicit-constructor)
    Html(const text::StyledText& runs);  // NOLINT(google-explicit-constructor) bold as <b>

    Html& operator+=(const Html& more);
    friend Html operator+(Html one, const Html& more) {
        one += more;
        return one;
    }
    [[nodiscard]] bool empty() const { return markup_.empty(); }
    [[nodiscard]] const std::string& markup() const { return markup_; }

  private:
    friend Html element(Name tag, const Attributes& attributes,
                        std::initializer_list<Html> content);
    friend Html lone(Name tag, const Attributes& attributes);
    friend std::string page_markup(const std::string& language, const std::string& style,
                                   const Html& head, const Html& body, const std::string& script);
    std::string markup_;
};

/// <tag attributes>content</tag>
Html element(Name tag, const Attributes& attributes, std::initializer_list<Html> content);
Html element(Name tag, std::initializer_list<Html> content);
/// A tag that has no content: <input>, <meta>, <br>; and in a drawing <circle>, <path>.
Html lone(Name tag, const Attributes& attributes);

/// A whole page, which runs from right to left where its language (BCP 47) does. `style` is a style
/// sheet of ours, `script` (empty: none) a script of ours at its end; one that could end its
/// element throws std::invalid_argument.
std::string page_markup(const std::string& language, const std::string& style, const Html& head,
                        const Html& body, const std::string& script = {});

}  // namespace gallipot::html
