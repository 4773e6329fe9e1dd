#include "tracking/keys/link.hpp"

namespace gallipot::keys {

namespace {

constexpr std::string_view placeholder = "{station}";

std::string capitals(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return out;
}

/// Capitals as far as the path, no slash at the end.
std::string base(std::string_view address) {
    while (!address.empty() && address.back() == '/') address.remove_suffix(1);
    const auto scheme = address.find("://");
    const auto host = scheme == std::string_view::npos ? 0 : scheme + 3;
    const auto path = std::min(address.find('/', host), address.size());
    return capitals(address.substr(0, path)) + std::string(address.substr(path));
}

}  // namespace

std::string percent_encoded(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool plain = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
                           (c >= 'a' && c <= 'z') || c == '-' || c == '.';
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
        return base(address) + "/S/" + percent_encoded(capitals(station)) + "/" + std::string(key);
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

}  // namespace gallipot::keys
