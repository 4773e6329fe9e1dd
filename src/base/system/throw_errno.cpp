#include "base/system/throw_errno.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/diag/utf8.hpp"
#include "base/system/descriptor.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"

namespace gallipot::system {
namespace {

const char* advice(bool reading, int error) {
    switch (error) {
        case ENOENT:
            return "; check the name and the folder";
        case EACCES:
        case EPERM:
            return reading ? "; ask whoever owns it for the right to read it"
                           : "; choose a folder you may write to, or change its rights";
        case EROFS:
            return "; choose a folder on a disk that may be written to";
        case ENOSPC:
        case EDQUOT:
            return "; free some space on the disk and run it again";
        case EFBIG:
            return "; this file would be larger than the system lets you write (ulimit -f)";
        case EMFILE:
        case ENFILE:
            return "; close other programs, or allow more open files (ulimit -n)";
        case EIO:
            return "; check the disk";
        case EISDIR:
            return "; give the name of a file";
        case ENOTDIR:
        case EEXIST:
            return "; a file is in the way where a folder is meant, give another name";
        case ENAMETOOLONG:
            return "; give a shorter name";
        default:
            return "";
    }
}

}  // namespace

void throw_errno(const std::string& doing, const std::filesystem::path& path, int error) {
    throw SystemError(doing + " " + diag::quoted(path.string()) + ": " + std::strerror(error) +
                      advice(doing == "cannot read", error));
}

std::string kind_of_file(mode_t mode) {
    if (S_ISDIR(mode)) return "a folder";
    if (S_ISFIFO(mode)) return "a pipe";
    if (S_ISSOCK(mode)) return "a socket";
    return "a device";
}

std::string head_of(const std::filesystem::path& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOFOLLOW));
    if (!file.good()) throw_errno("cannot read", path, errno);
    std::string head(head_size, '\0');
    std::size_t used = 0;
    while (used < head.size()) {
        const ssize_t got = ::read(file.get(), head.data() + used, head.size() - used);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) throw_errno("cannot read", path, errno);
        if (got == 0) break;
        used += static_cast<std::size_t>(got);
    }
    head.resize(used);
    return head;
}

std::filesystem::path folder_of(const std::filesystem::path& path) {
    return path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
}

}  // namespace gallipot::system
