#pragma once

#include <cstddef>
#include <string_view>

/// The head of an HTTP request, looked at before anybody else parses it.
namespace gallipot::web {

struct Head {
    int status = 0;  ///< 0: go on; else the status to refuse it with
    std::string_view why;
    std::size_t body = 0;  ///< bytes that follow
};

/// `head` ends with its empty line. Refused is what is malformed (RFC 9112), what has two meanings
/// (two lengths, a length and a transfer coding), what we have no use for (transfer codings, coded
/// content, "Expect") and a body of more than `most_body` bytes.
Head check_head(std::string_view head, std::size_t most_body);

}  // namespace gallipot::web
