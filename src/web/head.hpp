#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// The head of an HTTP request as the HTTP library has parsed it, checked before anything is done
/// with it: the library takes some heads that can be read in two ways.
namespace gallipot::web {

/// Names and values of the header fields, in their order.
using HeaderFields = std::vector<std::pair<std::string, std::string>>;

struct HeadError {
    int status = 0;
    std::string_view why;
};

/// Refused is what is malformed (RFC 9112), what can be read in two ways (two lengths, two hosts),
/// a request without a good Host (RFC 9112, 3.2), what nothing here can use (transfer and content
/// codings), and a head of more than `longest` bytes. `target` as it was sent, with its query.
std::optional<HeadError> check_head(std::string_view method, std::string_view target,
                                    const HeaderFields& fields, std::size_t longest);

}  // namespace gallipot::web
