#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "tracking/log/zone.hpp"
#include "web/limits.hpp"

namespace gallipot::web {

/// What whoever runs the server is told: who was turned away and why, and what failed, a line each.
/// Never a key: of a path only its first part. A burst of 60 lines, then one a second; the rest is
/// counted. May be shared between threads.
class AccessLog {
  public:
    using Print = std::function<void(const std::string& line)>;
    AccessLog(Print print, std::function<log::Instant()> now)
        : print_(std::move(print)), now_(std::move(now)) {}

    void refused(const std::string& peer, std::string_view why, std::string_view path = {});
    void failed(std::string_view what);

  private:
    void tell(const std::string& line);

    Print print_;
    std::function<log::Instant()> now_;
    RateLimit lines_{{60, std::chrono::seconds(1)}};
    std::mutex mutex_;
    long held_back_ = 0;
};

}  // namespace gallipot::web
