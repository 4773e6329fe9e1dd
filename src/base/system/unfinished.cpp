#include "base/system/unfinished.hpp"

#include <cerrno>
#include <fcntl.h>
#include <random>
#include <unistd.h>
#include <utility>

#include "base/system/guard.hpp"
#include "base/system/throw_errno.hpp"

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

constexpr int maximum_tries = 100;

std::string fresh_name(const fs::path& target) {
    static constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyz0123456789";
    constexpr int length = 8;
    std::random_device chance;
    std::string name = ".gallipot-";
    for (int i = 0; i < length; ++i) name += letters[chance() % letters.size()];
    return (folder_of(target) / name).string();
}

}  // namespace

Unfinished::Unfinished(const fs::path& target, Privacy privacy, Name name) : target_(target) {
    const mode_t mode = privacy == Privacy::owner_only ? 0600 : 0666;
    if (name == Name::not_needed) {
        file_ = ::open(folder_of(target).c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, mode);
        if (file_ >= 0) return;
        // These say that this system or file system has no such files.
        if (errno != EOPNOTSUPP && errno != EISDIR && errno != EINVAL)
            throw_errno("cannot write", target, errno);
    }
    for (int tries = 0; file_ < 0; ++tries) {
        const SignalBlock together;  // the file and the note of it
        const std::string fresh = fresh_name(target);
        file_ = ::open(fresh.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, mode);
        if (file_ >= 0)
            name_.emplace(fresh);
        else if (errno != EEXIST || tries == maximum_tries)
            throw_errno("cannot write", target, errno);
    }
}

Unfinished::~Unfinished() {
    if (file_ >= 0) ::close(file_);
}

void Unfinished::write(std::string_view bytes) {
    head_ += bytes.substr(0, head_size - head_.size());
    while (!bytes.empty()) {
        const ssize_t written = ::write(file_, bytes.data(), bytes.size());
        if (written < 0) {
            if (errno == EINTR) continue;
            throw_errno("cannot write", target_, errno);
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
}

void Unfinished::begin_flush() {
    // Those with a name are many, and must not all stay open.
    if (name_)
        flush();
    else
        ::sync_file_range(file_, 0, 0, SYNC_FILE_RANGE_WRITE);
}

void Unfinished::flush() {
    if (file_ < 0) return;
    if (::fsync(file_) != 0) throw_errno("cannot write", target_, errno);
    if (!name_) return;
    // Closing can be the moment a full disk is noticed, so its answer counts.
    if (::close(std::exchange(file_, -1)) != 0) throw_errno("cannot write", target_, errno);
}

bool Unfinished::link_to(const std::string& name) const {
    const int done = name_ ? ::link(name_->name().c_str(), name.c_str())
                           : ::linkat(AT_FDCWD, ("/proc/self/fd/" + std::to_string(file_)).c_str(),
                                      AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW);
    if (done == 0) return true;
    if (errno != EEXIST) throw_errno("cannot write", target_, errno);
    return false;
}

bool Unfinished::put_new() {
    return link_to(target_.string());
}

void Unfinished::put_over() {
    const SignalBlock together;
    if (!name_) {
        if (put_new()) return;
        // A link never goes over a file, so it takes a name first.
        std::string fresh = fresh_name(target_);
        for (int tries = 0; !link_to(fresh); ++tries) {
            if (tries == maximum_tries) throw_errno("cannot write", target_, EEXIST);
            fresh = fresh_name(target_);
        }
        name_.emplace(fresh);
    }
    if (::rename(name_->name().c_str(), target_.c_str()) != 0)
        throw_errno("cannot write", target_, errno);
    name_->keep();
}

void flush_folder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return;
    ::fsync(handle);
    ::close(handle);
}

}  // namespace gallipot::system
