#include "base/system/memory.hpp"

#include <cstdlib>
#include <string>
#include <sys/mman.h>
#include <sys/resource.h>
#include <vector>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "base/system/process.hpp"

using namespace gallipot::system;

namespace {

long faults() {
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    return used.ru_minflt;
}

}  // namespace

TEST_CASE("memory that is touched holds what it held") {
    std::string bytes(100000, 'a');
    for (const std::size_t begin : {0, 1, 4095, 50000}) {
        for (const std::size_t size : {0, 1, 4096, 8191, 8192, 50000}) {
            touch(bytes.data() + begin, size);
            CHECK(bytes == std::string(100000, 'a'));
        }
    }
}

// The sanitizers have heaps of their own.
#if defined(MADV_POPULATE_WRITE) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
/// In a process of its own, whose heap no other test has filled with holes.
TEST_CASE("a warm heap gives memory without a fault a page") {
    const std::string self = program_path().string();
    CHECK(std::system(("'" + self + "' '[alone]' > /dev/null").c_str()) == 0);
}

TEST_CASE("a warm heap, alone", "[.alone]") {
    void* const page =
        ::mmap(nullptr, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    const bool kernel_can = ::madvise(page, 4096, MADV_POPULATE_WRITE) == 0;  // Linux 5.14
    ::munmap(page, 4096);
    prepare_process();
    warm_heap();
    const long before = faults();
    const std::vector<std::string> small(1000, std::string(1000, 'a'));
    const long made = faults() - before;
    CHECK(small.back() == std::string(1000, 'a'));
    // They fill 250 pages.
    if (kernel_can) CHECK(made < 50);
}
#endif
