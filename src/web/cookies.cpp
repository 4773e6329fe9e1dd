#include "web/cookies.hpp"

#include <algorithm>
#include <string_view>

namespace gallipot::web {

std::vector<std::string> cookies(const Request& request, const std::string& name) {
    std::vector<std::string> values;
    const std::string all = request.header("cookie");
    for (std::size_t from = 0; from < all.size();) {
        const auto end = std::min(all.find(';', from), all.size());
        const auto first = std::min(all.find_first_not_of(' ', from), end);
        const std::string_view cookie = std::string_view(all).substr(first, end - first);
        if (cookie.starts_with(name + "=")) values.emplace_back(cookie.substr(name.size() + 1));
        from = end + 1;
    }
    return values;
}

void set_cookie(Response& response, const Cookie& cookie) {
    response.headers.emplace_back(
        "Set-Cookie", cookie.name + "=" + cookie.value + "; Max-Age=" +
                          std::to_string(cookie.seconds) + "; Path=/; HttpOnly; SameSite=" +
                          (cookie.same_site == SameSite::strict ? "Strict" : "Lax") +
                          (cookie.secure ? "; Secure" : ""));
}

}  // namespace gallipot::web
