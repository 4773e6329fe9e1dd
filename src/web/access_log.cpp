#include "web/access_log.hpp"

#include <fmt/chrono.h>
#include <fmt/format.h>

namespace gallipot::web {
namespace {

/// "/S/K1/..." of "/S/K1/7Q2MX4KD9A": enough to see which label, not enough to use it.
std::string shown(std::string_view path) {
    std::string out;
    int parts = path.starts_with("/S/") ? 3 : 2;
    for (const char c : path) {
        if (c == '/' && --parts == 0) return out + "/...";
        if (out.size() == 40) return out + "...";
        out += c > ' ' && c < 0x7F ? c : '?';
    }
    return out;
}

}  // namespace

void AccessLog::refused(const std::string& peer, std::string_view why, std::string_view path) {
    tell(fmt::format("refused {}: {}{}{}", peer, why, path.empty() ? "" : " ", shown(path)));
}

void AccessLog::failed(std::string_view what) {
    tell(fmt::format("failed: {}", what));
}

void AccessLog::tell(const std::string& line) {
    const std::lock_guard lock(mutex_);
    if (!lines_.take("", Steady::now())) {
        ++held_back_;
        return;
    }
    const std::time_t seconds{now_().time_since_epoch().count()};
    std::string more;
    if (held_back_ > 0) more = fmt::format(" (and {} more before it)", held_back_);
    held_back_ = 0;
    print_(fmt::format("{:%FT%TZ} {}{}", fmt::gmtime(seconds), line, more));
}

}  // namespace gallipot::web
