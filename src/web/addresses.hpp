#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gallipot::web {

/// The addresses under which other machines on the same network reach this one, as they stand in a
/// link ("192.168.1.20", "[2001:db8::7]"). Loopback and link-local ones are left out.
std::vector<std::string> own_addresses();

/// A host and a port as --listen and addresses have them.
struct HostPort {
    std::string host;  ///< without brackets
    int port = -1;     ///< -1: none given
};
/// "0.0.0.0:8017", "[::]:8017", "localhost". A port that is no number from 0 to 65535 gives an
/// empty host.
HostPort parse_host(std::string_view text);

/// Whether only this machine reaches it: "127.0.0.1", "localhost", "::1".
bool is_loopback_host(std::string_view host);

/// Whether it stands for all of this machine's addresses: "0.0.0.0", "::".
bool is_any_host(std::string_view host);

}  // namespace gallipot::web
