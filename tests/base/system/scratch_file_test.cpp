#include "base/system/scratch_file.hpp"

#include <string>
#include <unistd.h>

#include "catch_all.hpp"

namespace gallipot::system {
namespace {

TEST_CASE("scratch file: what was written is read from another descriptor, from its start") {
    ScratchFile file;
    const std::string text(100'000, 'x');
    file.write(text);
    file.write("end");
    std::size_t size = 0;
    const int copy = file.open_again(size);
    CHECK(size == text.size() + 3);
    std::string read(size, ' ');
    CHECK(::pread(copy, read.data(), size, 0) == static_cast<ssize_t>(size));
    CHECK(read == text + "end");
    ::close(copy);
}

}  // namespace
}  // namespace gallipot::system
