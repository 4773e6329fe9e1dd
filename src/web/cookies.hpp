#pragma once

#include <string>
#include <vector>

#include "web/message.hpp"

/// What a phone is given to keep, and shows again (RFC 6265).
namespace gallipot::web {

/// The values of the cookies of that name, as they were sent.
std::vector<std::string> cookies(const Request& request, const std::string& name);

/// To which requests a cookie goes: never to one that another site's page sends in secret.
enum class SameSite {
    strict,  ///< to those that began on our own pages
    lax  ///< to links that were followed from elsewhere as well, as from a code that was scanned
};

struct Cookie {
    std::string name;
    std::string value;
    SameSite same_site = SameSite::strict;
    long seconds = 180L * 24 * 3600;
    bool secure = false;  ///< over TLS alone
};
/// Out of reach of any script.
void set_cookie(Response& response, const Cookie& cookie);

}  // namespace gallipot::web
