#include "web/hosts.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"
#include "web/addresses.hpp"

namespace gallipot::web {
namespace {

bool is_name(std::string_view host) {
    return !host.empty() && std::all_of(host.begin(), host.end(), [](char c) {
        return strings::is_lower(c) || strings::is_digit(c) || c == '-' || c == '.' || c == '_';
    });
}

}  // namespace

OwnHosts::OwnHosts(const std::string& listening, const std::vector<std::string>& others)
    : anywhere_(is_any_host(listening)) {
    names_.insert("localhost");
    for (const std::string& text : {std::string("127.0.0.1"), std::string("[::1]")})
        if (anywhere_ || is_loopback_host(listening)) names_.insert(host_name(text));
    if (!anywhere_) names_.insert(strings::to_lower(listening));
    for (const std::string& other : others) names_.insert(host_name(other));
    names_.erase("");
}

bool OwnHosts::has(const std::string& host) const {
    if (names_.contains(host)) return true;
    if (!anywhere_ || !is_address(host)) return false;
    const auto own = own_addresses();
    return std::any_of(own.begin(), own.end(),
                       [&](const std::string& address) { return host_name(address) == host; });
}

std::string host_name(std::string_view field) {
    const std::string text = strings::to_lower(field);
    const bool bracketed = text.starts_with('[');
    const std::string host = parse_host(text).host;
    return bracketed ? (is_address(host) && host.find(':') != std::string::npos ? host : "")
                     : (is_name(host) ? host : "");
}

}  // namespace gallipot::web
