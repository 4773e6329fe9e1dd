#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "web/message.hpp"

namespace gallipot::web {

/// "192.168.1.20:8017" of "http://192.168.1.20:8017/x", in small letters, a scheme's own port left
/// out. Empty for what is no address.
std::string host_of(std::string_view address);

/// Whether a page of somebody else sent this form. Sec-Fetch-Site decides where the browser says it
/// (it does to HTTPS and to this machine); else Origin must be the host the request went to, or one
/// of `own_hosts`. A program that sends neither is no browser, so nobody's page made it do so.
bool is_cross_site(const Request& request, const std::vector<std::string>& own_hosts);

}  // namespace gallipot::web
