#include "web/cross_site.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"

namespace gallipot::web {

std::string host_of(std::string_view address) {
    std::string out = strings::to_lower(address);
    std::string_view own_port;
    if (out.starts_with("http://")) {
        own_port = ":80";
        out.erase(0, 7);
    } else if (out.starts_with("https://")) {
        own_port = ":443";
        out.erase(0, 8);
    } else {
        return {};
    }
    out.erase(std::min(out.find('/'), out.size()));
    if (out.ends_with(own_port)) out.erase(out.size() - own_port.size());
    return out;
}

bool is_cross_site(const Request& request, const std::vector<std::string>& own_hosts) {
    const std::string site = request.header("sec-fetch-site");
    // "none": the person did it, with the address bar or by loading again.
    if (!site.empty()) return site != "same-origin" && site != "none";
    const std::string origin = request.header("origin");
    if (origin.empty()) return false;
    const std::string from = host_of(origin);
    if (from.empty()) return true;
    // A proxy may have taken HTTPS off: both readings of the host count.
    const std::string host = request.header("host");
    return from != host_of("http://" + host) && from != host_of("https://" + host) &&
           std::find(own_hosts.begin(), own_hosts.end(), from) == own_hosts.end();
}

}  // namespace gallipot::web
