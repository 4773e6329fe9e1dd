#include "system/memory.hpp"

#include <cstdint>
#include <cstdlib>
#include <sys/mman.h>
#include <unistd.h>

namespace gallipot::system {

void touch(void* begin, std::size_t bytes) {
#ifdef MADV_POPULATE_WRITE  // Linux 5.14
    const auto page = static_cast<std::uintptr_t>(::sysconf(_SC_PAGESIZE));
    const auto first = (reinterpret_cast<std::uintptr_t>(begin) + page - 1) / page * page;
    const auto end = (reinterpret_cast<std::uintptr_t>(begin) + bytes) / page * page;
    if (first < end) ::madvise(reinterpret_cast<void*>(first), end - first, MADV_POPULATE_WRITE);
#endif
}

void warm_heap() {
    void* const all = std::malloc(warm);
    if (all == nullptr) return;
    touch(all, warm);
    std::free(all);
}

}  // namespace gallipot::system
