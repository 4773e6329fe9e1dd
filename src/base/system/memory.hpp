#pragma once

#include <cstddef>

/// Memory is had from the kernel a page at a time, when it is first written to, and under a
/// virtual machine a page may cost ten times what filling it does. These ask for many at once.
/// They change nothing but time, and do nothing where the kernel does not know how.
namespace gallipot::system {

/// Has the whole pages within `bytes` bytes of writable memory made now.
void touch(void* begin, std::size_t bytes);

/// Readies the heap of this thread for so many bytes of small things. `warm` is what the papers of
/// a house take; threads that share the work share it.
inline constexpr std::size_t warm = 3 << 20;
void warm_heap(std::size_t bytes = warm);

}  // namespace gallipot::system
