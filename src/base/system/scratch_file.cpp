#include "base/system/scratch_file.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

#include "base/system/files.hpp"

namespace gallipot::system {
namespace {

[[noreturn]] void fail(const char* what) {
    throw SystemError{std::string("cannot ") + what + " a temporary file: " + std::strerror(errno)};
}

}  // namespace

ScratchFile::ScratchFile() : file_(std::tmpfile()) {
    if (!file_) fail("make");
}

void ScratchFile::write(std::string_view bytes) {
    if (std::fwrite(bytes.data(), 1, bytes.size(), file_.get()) != bytes.size()) fail("write");
}

int ScratchFile::open_again(std::size_t& size) const {
    if (std::fflush(file_.get()) != 0) fail("write");
    struct stat found {};
    const int copy = ::fcntl(::fileno(file_.get()), F_DUPFD_CLOEXEC, 0);
    if (copy < 0 || ::fstat(copy, &found) != 0) {
        if (copy >= 0) ::close(copy);
        fail("read");
    }
    size = static_cast<std::size_t>(found.st_size);
    return copy;
}

}  // namespace gallipot::system
