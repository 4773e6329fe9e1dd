#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What a browser sends when a form is submitted: application/x-www-form-urlencoded (WHATWG URL
/// Standard, section 5.1), or multipart/form-data (RFC 7578) where it has a field for files.
namespace gallipot::web {

class Form {
  public:
    /// As much of it as can be read. What is no UTF-8 becomes U+FFFD, NUL goes, and of the fields
    /// only the first `maximum_fields` count; damaged() then says so.
    explicit Form(std::string_view body);
    /// The same of a body of either kind. The files it holds are views of `body`.
    Form(std::string_view body, std::string_view content_type);
    static constexpr std::size_t maximum_fields = 4000;
    static constexpr std::size_t maximum_files = 20;  ///< further ones are left out, and damaged()

    /// Whether something was not as a browser sends it.
    [[nodiscard]] bool damaged() const { return damaged_; }
    [[nodiscard]] bool has(std::string_view name) const;
    /// The first value of the field; empty when it is not there.
    [[nodiscard]] std::string value(std::string_view name) const;
    /// All values of the field, as of boxes that were ticked.
    [[nodiscard]] std::vector<std::string> values(std::string_view name) const;
    using Fields = std::vector<std::pair<std::string, std::string>>;
    [[nodiscard]] const Fields& fields() const { return fields_; }
    /// What was chosen in a field for files, in its order; nothing of their names is kept.
    [[nodiscard]] std::vector<std::string_view> files(std::string_view name) const;

  private:
    void read_fields(std::string_view body);
    void read_parts(std::string_view body, std::string_view content_type);
    void add(std::string name, std::string value);
    std::string text(std::string_view bytes);

    Fields fields_;
    std::vector<std::pair<std::string, std::string_view>> files_;
    bool damaged_ = false;
};

/// Whether a body of this content type is a form of either kind.
bool is_form_type(std::string_view content_type);
bool is_multipart(std::string_view content_type);

/// The reverse of keys::percent_encoded; "+" becomes a space when `plus` says so. A lone "%" stays.
std::string percent_decoded(std::string_view text, bool plus);

}  // namespace gallipot::web
