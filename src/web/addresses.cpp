#include "web/addresses.hpp"

#include <algorithm>
#include <arpa/inet.h>
#include <array>
#include <charconv>
#include <ifaddrs.h>
#include <memory>
#include <net/if.h>
#include <netinet/in.h>

namespace gallipot::web {
namespace {

/// inet_pton of the whole text: the library stops at a NUL.
bool parses(int family, std::string_view text, in6_addr& parsed) {
    const std::string whole(text);
    return whole.find('\0') == std::string::npos &&
           ::inet_pton(family, whole.c_str(), &parsed) == 1;
}

}  // namespace

std::vector<std::string> own_addresses() {
    std::vector<std::string> addresses;
    ifaddrs* first = nullptr;
    if (::getifaddrs(&first) != 0) return addresses;
    const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> all(first, &::freeifaddrs);
    for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
        if (one->ifa_addr == nullptr || (one->ifa_flags & IFF_UP) == 0 ||
            (one->ifa_flags & IFF_LOOPBACK) != 0)
            continue;
        char text[INET6_ADDRSTRLEN] = "";
        if (one->ifa_addr->sa_family == AF_INET) {
            const auto* address = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
            if ((ntohl(address->sin_addr.s_addr) >> 16) == 0xA9FE) continue;  // 169.254/16
            ::inet_ntop(AF_INET, &address->sin_addr, text, sizeof text);
            addresses.emplace_back(text);
        } else if (one->ifa_addr->sa_family == AF_INET6) {
            const auto* address = reinterpret_cast<const sockaddr_in6*>(one->ifa_addr);
            if (IN6_IS_ADDR_LINKLOCAL(&address->sin6_addr)) continue;
            ::inet_ntop(AF_INET6, &address->sin6_addr, text, sizeof text);
            addresses.push_back("[" + std::string(text) + "]");
        }
    }
    return addresses;
}

HostPort parse_host(std::string_view text) {
    HostPort parsed;
    std::string_view port;
    if (text.starts_with('[')) {
        const auto end = text.find(']');
        if (end == std::string_view::npos) return {};
        parsed.host = text.substr(1, end - 1);
        port = text.substr(end + 1);
    } else {
        const auto colon = std::min(text.find(':'), text.size());
        parsed.host = text.substr(0, colon);
        port = text.substr(colon);
    }
    if (port.empty()) return parsed;
    if (port.front() != ':') return {};
    port.remove_prefix(1);
    const auto [end, error] = std::from_chars(port.data(), port.data() + port.size(), parsed.port);
    if (error != std::errc() || end != port.data() + port.size() || parsed.port < 0 ||
        parsed.port > 65535)
        return {};
    return parsed;
}

bool is_loopback_host(std::string_view host) {
    return host.starts_with("127.") || host == "localhost" || host == "::1" ||
           host.starts_with("::ffff:127.");  // IPv4 seen by an IPv6 socket
}

bool is_any_host(std::string_view host) {
    return host == "0.0.0.0" || host == "::";
}

bool is_address(std::string_view host) {
    in6_addr parsed{};
    return parses(AF_INET, host, parsed) || parses(AF_INET6, host, parsed);
}

std::string network_of(std::string_view address) {
    if (is_loopback_host(address)) return this_machine;
    // "fe80::1%eth0": which interface it came by does not count.
    std::string text(address.substr(0, address.find('%')));
    in6_addr parsed{};
    if (!parses(AF_INET6, text, parsed)) return text;
    std::array<char, INET6_ADDRSTRLEN> printed{};
    if (IN6_IS_ADDR_V4MAPPED(&parsed)) {
        ::inet_ntop(AF_INET, &parsed.s6_addr[12], printed.data(), printed.size());
        return printed.data();
    }
    std::fill(std::begin(parsed.s6_addr) + 8, std::end(parsed.s6_addr), std::uint8_t{0});
    ::inet_ntop(AF_INET6, &parsed, printed.data(), printed.size());
    return std::string(printed.data()) + "/64";
}

}  // namespace gallipot::web
