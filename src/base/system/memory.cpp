#include "base/system/memory.hpp"

#include <cstdint>
#include <cstdlib>
#include <sys/mman.h>
#include <unistd.h>

namespace gallipot::system {

void touch(void* begin, std::size_t bytes) {
#ifdef MADV_POPULATE_WRITE  // Linux 5.14
    const auto page = static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
    const std::size_t before = (page - reinterpret_cast<std::uintptr_t>(begin) % page) % page;
    if (before >= bytes) return;
    const std::size_t whole = (bytes - before) / page * page;
    if (whole > 0) ::madvise(static_cast<char*>(begin) + before, whole, MADV_POPULATE_WRITE);
#endif
}

void warm_heap(std::size_t bytes) {
    void* const all = std::malloc(bytes);
    if (all == nullptr) return;
    touch(all, bytes);
    std::free(all);
}

}  // namespace gallipot::system
