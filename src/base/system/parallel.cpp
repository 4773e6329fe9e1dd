#include "base/system/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace gallipot::system {

void in_parallel(std::size_t count, std::size_t threads,
                 const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next = 0;
    std::mutex mutex;
    std::size_t failed = count;  // the smallest number that threw
    std::exception_ptr error;
    const auto run = [&] {
        for (;;) {
            const std::size_t mine = next++;
            if (mine >= count) return;
            try {
                work(mine);
            } catch (...) {
                const std::lock_guard lock(mutex);
                if (mine < failed) {
                    failed = mine;
                    error = std::current_exception();
                }
                next = count;
            }
        }
    };
    std::vector<std::jthread> others;
    try {
        const std::size_t workers = std::min(count, threads);
        for (std::size_t i = 1; i < workers; ++i) others.emplace_back(run);
    } catch (const std::system_error&) {
        // No room for more threads (memory, ulimit -u): those there are do it.
    }
    run();
    others.clear();  // joined
    if (error) std::rethrow_exception(error);
}

std::size_t cores() {
    return std::max(1u, std::thread::hardware_concurrency());
}

}  // namespace gallipot::system
