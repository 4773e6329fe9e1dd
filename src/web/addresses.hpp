#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gallipot::web {

/// The addresses under which other machines on the same network reach this one, as they stand in a
/// link ("192.168.1.20", "[2001:db8::7]"). Loopback and link-local ones are left out.
std::vector<std::string> own_addresses();

/// A host and a port as --listen, addresses and a Host field have them.
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

/// Whether it is an IPv4 or IPv6 address (without brackets), not a name.
bool is_address(std::string_view host);

/// What network_of() gives for all of this machine's own addresses.
inline constexpr const char* this_machine = "this machine";

/// Whom an address is counted as, where requests are: an IPv4 address as itself; an IPv6 address as
/// its first 64 bits ("2001:db8:0:7::/64"), since whoever has one has all 2^64 of them (RFC 6177);
/// an IPv4 address seen by an IPv6 socket ("::ffff:192.168.1.7") as IPv4. Loopback is this_machine.
std::string network_of(std::string_view address);

}  // namespace gallipot::web
