#pragma once

#include <chrono>
#include <filesystem>
#include <functional>
#include <mutex>
#include <string>

#include "tracking/keys/keys.hpp"

namespace gallipot::app {

/// The secret of a job while it is served: looked at again, at most once a second, so that labels
/// printed with a new one open their pages at once and those of the old one no more. While the file
/// is gone or broken the secret last read holds. May be shared between threads.
class SecretWatch {
  public:
    using Clock = std::function<std::chrono::steady_clock::time_point()>;
    /// `tell` is given a sentence each time that something changed.
    SecretWatch(std::filesystem::path file, const keys::Secret& secret,
                std::function<void(const std::string&)> tell,
                Clock clock = std::chrono::steady_clock::now);

    keys::Secret current();

  private:
    void look();
    void tell_once(const std::string& sentence);

    const std::filesystem::path file_;
    const std::function<void(const std::string&)> tell_;
    const Clock clock_;
    std::mutex mutex_;
    keys::Secret secret_;
    std::chrono::steady_clock::time_point looked_;
    std::string told_;  ///< what was said last of the file, until it is well again
};

}  // namespace gallipot::app
