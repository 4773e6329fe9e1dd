#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What a browser sends when a form is submitted (application/x-www-form-urlencoded, WHATWG URL
/// Standard, section 5.1).
namespace gallipot::web {

class Form {
  public:
    /// As much of it as can be read. What is no UTF-8 becomes U+FFFD, NUL goes, and of the fields
    /// only the first `most_fields` count; damaged() then says so.
    explicit Form(std::string_view body);
    static constexpr std::size_t maximum_fields = 4000;

    /// Whether something was not as a browser sends it.
    [[nodiscard]] bool damaged() const { return damaged_; }
    [[nodiscard]] bool has(std::string_view name) const;
    /// The first value of the field; empty when it is not there.
    [[nodiscard]] std::string value(std::string_view name) const;
    /// All values of the field, as of boxes that were ticked.
    [[nodiscard]] std::vector<std::string> values(std::string_view name) const;
    using Fields = std::vector<std::pair<std::string, std::string>>;
    [[nodiscard]] const Fields& fields() const { return fields_; }

  private:
    std::string text(std::string_view encoded);

    Fields fields_;
    bool damaged_ = false;
};

/// The reverse of keys::percent_encoded; "+" becomes a space when `plus` says so. A lone "%" stays.
std::string percent_decoded(std::string_view text, bool plus);

}  // namespace gallipot::web
