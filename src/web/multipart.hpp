#pragma once

#include <string>
#include <string_view>
#include <vector>

/// The parts of a multipart/form-data body (RFC 7578; its delimiters RFC 2046, 5.1.1).
namespace gallipot::web {

struct Part {
    std::string name;
    bool is_file = false;      ///< it has a file name, which is not kept
    std::string_view content;  ///< of the body
};

struct MultipartBody {
    std::vector<Part> parts;
    bool whole = false;  ///< it ends as it should, and nothing had to be left out
};

/// As much of it as can be read: of a body that was cut, the text that came last as far as it goes,
/// but no file that does not end. Parts without a name are left out. Of more than maximum_parts the
/// first count.
MultipartBody read_multipart(std::string_view body, std::string_view content_type);

inline constexpr std::size_t maximum_parts = 4000;

}  // namespace gallipot::web
