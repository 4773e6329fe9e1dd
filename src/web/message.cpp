#include "web/message.hpp"

namespace gallipot::web {

void add_safety_headers(Response& response, const std::string& policy) {
    auto& headers = response.headers;
    headers.emplace_back("Content-Security-Policy", policy);
    headers.emplace_back("X-Content-Type-Options", "nosniff");
    headers.emplace_back("X-Frame-Options", "DENY");
    headers.emplace_back("Referrer-Policy", "no-referrer");
    headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
    headers.emplace_back("X-Robots-Tag", "noindex, nofollow");
    // Going back must find what was typed, so the browser may keep the page, for itself alone.
    headers.emplace_back("Cache-Control", "private, no-cache");
    headers.emplace_back("Vary", "Accept-Language, Accept-Encoding, Cookie");
}

}  // namespace gallipot::web
