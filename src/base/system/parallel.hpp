#pragma once

#include <cstddef>
#include <functional>

namespace gallipot::system {

/// Calls `work` once with each number from 0 to before `count`, on up to `threads` threads at a
/// time (this one among them), and returns when all are done. What `work` throws for the smallest
/// number is thrown here; numbers not yet begun by then are left out. Results must not depend on
/// the order.
void in_parallel(std::size_t count, std::size_t threads,
                 const std::function<void(std::size_t)>& work);

/// As many threads as the machine runs at once.
std::size_t cores();

}  // namespace gallipot::system
