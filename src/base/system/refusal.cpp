#include "base/system/refusal.hpp"

#include <cerrno>
#include <cstring>

#include "base/system/files.hpp"

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

void refuse(const std::string& doing, const std::filesystem::path& path, int error) {
    throw SystemError{doing + " '" + path.string() + "': " + std::strerror(error) +
                      advice(doing == "cannot read", error)};
}

std::filesystem::path folder_of(const std::filesystem::path& path) {
    return path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
}

}  // namespace gallipot::system
