#pragma once

#include <string_view>

#include "web/message.hpp"

/// Pages that take long to send are compressed for whoever can read that.
namespace gallipot::web {

/// Shorter bodies fit into a few packets as they are.
inline constexpr std::size_t compressed_from = 4096;  ///< bytes

/// Whether an Accept-Encoding (RFC 9110, 12.5.3) takes gzip.
bool takes_gzip(std::string_view accept_encoding);

/// Compresses a page of text where the request takes it. Never one that shows `others_words`: its
/// length would tell whoever wrote them how alike they are to the secrets in the page (BREACH).
void compress(const Request& request, Response& response);

}  // namespace gallipot::web
