#include "tracking/keys/link.hpp"

#include "base/strings/ascii.hpp"

namespace gallipot::keys {

namespace {

constexpr std::string_view placeholder = "{station}";

/// Capitals as far as the path, no slash at the end.
std::string base(std::string_view address) {
    while (!address.empty() && address.back() == '/') address.remove_suffix(1);
    const auto scheme = address.find("://");
    const auto host = scheme == std::string_view::npos ? 0 : scheme + 3;
    const auto path = std::min(address.find('/', host), address.size());
    return strings::to_upper(address.substr(0, path)) + std::string(address.substr(path));
}

}  // namespace

std::string percent_encoded(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool plain = strings::is_letter_or_digit(c) || c == '-' || c == '.';
        if (plain) {
            out += c;
            continue;
        }
        const auto byte = static_cast<unsigned char>(c);
        out += '%';
        out += "0123456789ABCDEF"[byte >> 4];
        out += "0123456789ABCDEF"[byte & 15];
    }
    return out;
}

bool own_page(std::string_view address) {
    return address.find(placeholder) != std::string_view::npos;
}

std::string link(std::string_view address, std::string_view station, std::string_view key) {
    if (!own_page(address))
        return base(address) + "/S/" + percent_encoded(strings::to_upper(station)) + "/" +
               std::string(key);
    std::string out(address);
    const auto id = percent_encoded(station);
    for (auto at = out.find(placeholder); at != std::string::npos;
         at = out.find(placeholder, at + id.size()))
        out.replace(at, placeholder.size(), id);
    return out;
}

std::string overview_link(std::string_view address, std::string_view key) {
    if (own_page(address)) return {};
    return base(address) + "/ALL/" + std::string(key);
}

std::string household_link(std::string_view address, std::string_view key) {
    if (own_page(address)) return {};
    return base(address) + "/HOME/" + std::string(key);
}

}  // namespace gallipot::keys
