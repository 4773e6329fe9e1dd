#include "web/limits.hpp"

#include <algorithm>

namespace gallipot::web {

bool RateLimit::take(const std::string& name, Steady::time_point now) {
    const std::lock_guard lock(mutex_);
    auto at = buckets_.find(name);
    if (at == buckets_.end()) {
        if (buckets_.size() >= maximum_names) forget_quiet(now);
        at = buckets_.emplace(name, Bucket{rate_.burst, now}).first;
    }
    Bucket& bucket = at->second;
    const std::chrono::duration<double, std::milli> since = now - bucket.when;
    bucket.left = std::min(rate_.burst, bucket.left + since / rate_.refill);
    bucket.when = now;
    if (bucket.left < 1) return false;
    bucket.left -= 1;
    return true;
}

void RateLimit::give_back(const std::string& name) {
    const std::lock_guard lock(mutex_);
    const auto at = buckets_.find(name);
    if (at != buckets_.end()) at->second.left = std::min(rate_.burst, at->second.left + 1);
}

void RateLimit::forget_quiet(Steady::time_point now) {
    // Whoever has been quiet for a whole refill starts anew anyway.
    const auto whole = rate_.refill * static_cast<long>(rate_.burst);
    std::erase_if(buckets_, [&](const auto& item) { return now - item.second.when >= whole; });
    if (buckets_.size() < maximum_names) return;
    const auto oldest = std::min_element(buckets_.begin(), buckets_.end(), [](auto& a, auto& b) {
        return a.second.when < b.second.when;
    });
    buckets_.erase(oldest);
}

}  // namespace gallipot::web
