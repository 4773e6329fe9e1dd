#include "web/head.hpp"

#include <charconv>
#include <string>
#include <utility>

#include "web/letters.hpp"

namespace gallipot::web {
namespace {

constexpr std::size_t most_fields = 64;

bool is_token(std::string_view text) {
    constexpr std::string_view others = "!#$%&'*+-.^_`|~";
    if (text.empty()) return false;
    for (const char c : text) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (!letter && !(c >= '0' && c <= '9') && others.find(c) == std::string_view::npos)
            return false;
    }
    return true;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

bool has_control(std::string_view text) {
    for (const char c : text)
        if ((c >= 0 && c < ' ' && c != '\t') || c == 0x7F) return true;
    return false;
}

/// "GET /S/K1/7Q2MX4KD9A HTTP/1.1"
bool is_request_line(std::string_view line) {
    const auto first = line.find(' ');
    const auto last = line.rfind(' ');
    if (first == std::string_view::npos || first == last) return false;
    const std::string_view target = line.substr(first + 1, last - first - 1);
    const std::string_view version = line.substr(last + 1);
    return is_token(line.substr(0, first)) && !target.empty() && target.front() == '/' &&
           target.find(' ') == std::string_view::npos && !has_control(line) &&
           (version == "HTTP/1.1" || version == "HTTP/1.0");
}

}  // namespace

Head check_head(std::string_view head, std::size_t most_body) {
    constexpr std::string_view end_of_line = "\r\n";
    const auto line = [&]() -> std::string_view {
        const auto end = head.find(end_of_line);
        const std::string_view text = head.substr(0, end);
        head.remove_prefix(end == std::string_view::npos ? head.size() : end + 2);
        return text;
    };
    if (!is_request_line(line())) return {400, "not a request", 0};
    Head found;
    bool length_seen = false;
    std::size_t fields = 0;
    for (std::string_view field = line(); !field.empty(); field = line()) {
        const auto colon = field.find(':');
        if (++fields > most_fields) return {431, "too many header fields", 0};
        if (colon == std::string_view::npos || !is_token(field.substr(0, colon)) ||
            has_control(field))
            return {400, "a malformed header field", 0};
        const std::string name = small(field.substr(0, colon));
        const std::string_view value = trimmed(field.substr(colon + 1));
        if (name == "transfer-encoding") return {501, "a transfer coding", 0};
        if (name == "content-encoding") return {415, "coded content", 0};
        if (name == "expect") return {417, "an expectation", 0};
        if (name != "content-length") continue;
        const auto [end, error] =
            std::from_chars(value.data(), value.data() + value.size(), found.body);
        if (std::exchange(length_seen, true) || error == std::errc::invalid_argument ||
            end != value.data() + value.size() || value.front() == '-')
            return {400, "a malformed length", 0};
        if (error != std::errc() || found.body > most_body) return {413, "too large a body", 0};
    }
    return found;
}

}  // namespace gallipot::web
