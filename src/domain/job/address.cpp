#include "domain/job/address.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <string_view>

#include "base/strings/ascii.hpp"
#include "base/units/number.hpp"

namespace gallipot::job {

namespace {

bool host_name(std::string_view host) {
    if (host.empty() || host.front() == '.' || host.front() == '-') return false;
    return host.find("..") == std::string_view::npos &&
           std::all_of(host.begin(), host.end(), [](char c) {
               return strings::is_letter_or_digit(c) || c == '.' || c == '-';
           });
}

/// "[fe80::1]"
bool bracketed(std::string_view host) {
    if (host.size() < 4 || host.front() != '[' || host.back() != ']') return false;
    host = host.substr(1, host.size() - 2);
    return std::all_of(host.begin(), host.end(), [](char c) {
        return std::isxdigit(static_cast<unsigned char>(c)) != 0 || c == ':' || c == '.';
    });
}

bool port(std::string_view text) {
    const auto parsed = units::parse_whole(text);
    const int* number = std::get_if<int>(&parsed);
    return number != nullptr && *number >= 1 && *number <= 65535;
}

/// Whether a phone's browser that opens it would look for the server on the phone itself.
bool own_machine(std::string_view host) {
    return host == "localhost" || host.starts_with("127.") || host == "[::1]" || host == "0.0.0.0";
}

/// The characters of the dense mode of a QR code (ISO/IEC 18004, alphanumeric mode).
bool dense(char c) {
    constexpr std::string_view others = "$%*+-./:";
    return strings::is_digit(c) || strings::is_upper(c) || others.find(c) != std::string_view::npos;
}

}  // namespace

bool check_address(const diag::At<std::string>& address, diag::Diagnostics& out) {
    const auto wrong = [&](diag::Text message, diag::Text hint) {
        out.error("bad-address", address.place, std::move(message), std::move(hint));
        return false;
    };
    const std::string& text = *address;
    constexpr std::string_view station = "{station}";
    if (!std::all_of(text.begin(), text.end(), [](char c) { return c > ' ' && c < 0x7F; })) {
        return wrong("an address has no blanks and only plain letters",
                     "write blanks as %20 and a host with other letters in its xn-- form");
    }
    const std::string_view whole = text;
    std::size_t from = 0;
    if (whole.starts_with("http://")) from = 7;
    if (whole.starts_with("https://")) from = 8;
    if (from == 0) {
        return wrong(diag::say("'{}' does not begin with http:// or https://", text),
                     text.find("://") == std::string::npos
                         ? diag::say("write http://{}", text)
                         : diag::say("write an address like http://192.168.1.20:8017"));
    }
    const std::size_t end = std::min(whole.find_first_of("/?#", from), whole.size());
    std::string_view host = whole.substr(from, end - from);
    const std::string_view rest = whole.substr(end);
    if (host.find('@') != std::string_view::npos) {
        return wrong("the address holds a user's name", "take out what stands before the @");
    }
    const std::size_t colon = host.rfind(':');
    if (colon != std::string_view::npos && host.back() != ']') {
        if (!port(host.substr(colon + 1))) {
            return wrong(diag::say("a port must be 1 to 65535, not '{}'", host.substr(colon + 1)),
                         "write the port that gallipot serve prints, or leave the colon out");
        }
        host = host.substr(0, colon);
    }
    if (!host_name(host) && !bracketed(host)) {
        return wrong(host.empty() ? diag::say("the address names no machine")
                                  : diag::say("'{}' is not the name of a machine", host),
                     "write one of the addresses that gallipot serve prints");
    }
    const bool own_page = rest.find(station) != std::string_view::npos;
    if (!own_page && rest.find_first_of("?#{}") != std::string_view::npos) {
        return wrong("the address goes on past its path, and each code adds to it",
                     "end the address after the host, or put {station} where the id belongs");
    }
    if (own_machine(host)) {
        out.warning(
            "own-machine", address.place,
            diag::say("'{}' is each phone itself, not the machine that serves the log", host),
            "write the address other devices in the house reach it at");
    }
    if (!own_page && !std::all_of(rest.begin(), rest.end(), dense)) {
        out.warning("long-code", address.place, "small letters in the path make each code larger",
                    "serve the log at a path in capitals, or at none");
    }
    return true;
}

}  // namespace gallipot::job
