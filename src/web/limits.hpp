#pragma once

#include <chrono>
#include <map>
#include <mutex>
#include <string>

/// How often somebody may do something.
namespace gallipot::web {

using Steady = std::chrono::steady_clock;

/// So many at once, and then one every `refill`.
struct Rate {
    double burst = 0;
    std::chrono::milliseconds refill{1};
};

/// Counts by name (an address, a station). May be shared between threads. It remembers at most
/// `most_names` names: beyond that the ones that have been quiet longest are let off, so that a
/// crowd of names takes no more memory.
class RateLimit {
  public:
    static constexpr std::size_t maximum_names = 10'000;

    explicit RateLimit(Rate rate) : rate_(rate) {}
    /// Whether one more is allowed now; it then counts.
    bool take(const std::string& name, Steady::time_point now);
    /// What was taken does not count after all.
    void give_back(const std::string& name);

  private:
    struct Bucket {
        double left = 0;
        Steady::time_point when;
    };
    void forget_quiet(Steady::time_point now);

    Rate rate_;
    std::mutex mutex_;
    std::map<std::string, Bucket> buckets_;
};

}  // namespace gallipot::web
