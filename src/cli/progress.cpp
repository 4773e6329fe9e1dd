#include "cli/progress.hpp"

#include <fmt/format.h>
#include <ostream>

namespace gallipot::cli {

namespace {

constexpr std::size_t width = 24;  // of the bar
constexpr auto between = std::chrono::milliseconds(100);

}  // namespace

Progress::Progress(std::ostream& terminal, bool looked_at, std::size_t total, std::string things,
                   Clock::duration patience)
    : terminal_(terminal),
      looked_at_(looked_at),
      total_(total),
      things_(std::move(things)),
      patience_(patience) {}

Progress::~Progress() {
    // Back to the line's beginning, and clear it (ECMA-48: CR, EL).
    if (visible_) terminal_ << "\r\x1b[K" << std::flush;
}

void Progress::done_one() {
    ++done_;
    const auto now = Clock::now();
    if (!looked_at_ || now - begin_ < patience_ || done_ == total_) return;
    if (visible_ && now - shown_ < between) return;
    const std::size_t filled = width * done_ / total_;
    terminal_ << fmt::format("\r[{:#<{}}{:.<{}}] {} of {} {}, {} left", "", filled, "",
                             width - filled, done_, total_, things_, total_ - done_)
              << std::flush;
    visible_ = true;
    shown_ = now;
}

}  // namespace gallipot::cli
