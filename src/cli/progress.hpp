#pragma once

#include <chrono>
#include <cstddef>
#include <iosfwd>
#include <string>

namespace gallipot::cli {

/// A line on a terminal that says what is done and what is left, for work that takes longer than a
/// second. It is gone when the work is.
class Progress {
  public:
    using Clock = std::chrono::steady_clock;
    /// `things` in the plural: "files". Nothing is shown where nobody looks.
    Progress(std::ostream& terminal, bool looked_at, std::size_t total, std::string things,
             Clock::duration patience = std::chrono::seconds(1));
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// One more is done. For one thread at a time.
    void done_one();

  private:
    std::ostream& terminal_;
    bool looked_at_;
    std::size_t total_, done_ = 0;
    std::string things_;
    Clock::duration patience_;
    Clock::time_point begin_ = Clock::now(), shown_;
    bool visible_ = false;
};

}  // namespace gallipot::cli
