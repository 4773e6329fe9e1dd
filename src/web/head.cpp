#include "web/head.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"
#include "web/hosts.hpp"

namespace gallipot::web {
namespace {

bool is_token(std::string_view text) {
    constexpr std::string_view others = "!#$%&'*+-.^_`|~";
    return !text.empty() && std::all_of(text.begin(), text.end(), [&](char c) {
        return strings::is_letter_or_digit(c) || others.find(c) != std::string_view::npos;
    });
}

bool has_control(std::string_view text) {
    return std::any_of(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) < ' ' && c != '\t') || c == 0x7F;
    });
}

}  // namespace

std::optional<HeadError> check_head(std::string_view method, std::string_view target,
                                    const HeaderFields& fields, std::size_t longest) {
    if (!is_token(method) || !target.starts_with('/') || has_control(target))
        return HeadError{400, "not a request"};
    std::size_t size = method.size() + target.size();
    std::size_t hosts = 0;
    std::size_t lengths = 0;
    for (const auto& [name, value] : fields) {
        size += name.size() + value.size() + 4;
        if (!is_token(name) || has_control(value))
            return HeadError{400, "a malformed header field"};
        const std::string field = strings::to_lower(name);
        if (field == "transfer-encoding") return HeadError{501, "a transfer coding"};
        if (field == "content-encoding") return HeadError{415, "coded content"};
        if (field == "content-length" && ++lengths > 1) return HeadError{400, "two lengths"};
        if (field == "host" && (++hosts > 1 || host_name(value).empty()))
            return HeadError{400, hosts > 1 ? "two hosts" : "a malformed host"};
    }
    if (size > longest) return HeadError{431, "too long a head"};
    if (hosts == 0) return HeadError{400, "no host"};
    return std::nullopt;
}

}  // namespace gallipot::web
