#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a browser sends when a form is submitted (application/x-www-form-urlencoded, WHATWG URL
/// Standard, section 5.1).
namespace gallipot::web {

class Form {
  public:
    /// None when it is not UTF-8, holds NUL, or has more than `most_fields` fields.
    static std::optional<Form> parse(std::string_view body);
    static constexpr std::size_t most_fields = 60;

    [[nodiscard]] bool has(std::string_view name) const;
    /// The first value of the field; empty when it is not there.
    [[nodiscard]] std::string value(std::string_view name) const;
    /// All values of the field, as of boxes that were ticked.
    [[nodiscard]] std::vector<std::string> values(std::string_view name) const;

  private:
    std::vector<std::pair<std::string, std::string>> fields_;
};

/// The reverse of keys::percent_encoded; "+" becomes a space when `plus` says so. A lone "%" stays.
std::string percent_decoded(std::string_view text, bool plus);

}  // namespace gallipot::web
