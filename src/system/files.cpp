#include "system/files.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

[[noreturn]] void fail(const std::string& doing, const fs::path& path, int error) {
    std::string message = doing + " '" + path.string() + "': " + std::strerror(error);
    switch (error) {
        case ENOENT:
            message += "; check the name and the folder";
            break;
        case EACCES:
        case EPERM:
        case EROFS:
            message += "; choose a folder you may write to, or change its rights";
            break;
        case ENOSPC:
        case EDQUOT:
            message += "; free some space on the disk and run it again";
            break;
        case EISDIR:
            message += "; give the name of a file";
            break;
        default:
            break;
    }
    throw SystemError{message};
}

/// Closes on the way out, whatever happens.
class Descriptor {
  public:
    explicit Descriptor(int fd) : fd_(fd) {}
    ~Descriptor() {
        if (fd_ >= 0) ::close(fd_);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int get() const { return fd_; }
    [[nodiscard]] bool good() const { return fd_ >= 0; }
    /// Closing can be the moment a full disk is noticed, so its answer counts.
    int close() {
        const int result = ::close(fd_);
        fd_ = -1;
        return result;
    }

  private:
    int fd_;
};

/// A file under a temporary name in the folder it is meant for, removed unless it is put in place.
class Beside {
  public:
    using Fill = std::function<void(int file, const fs::path& unfinished)>;
    Beside(const fs::path& target, Privacy privacy, const Fill& fill) : target_(target) {
        const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
        name_ = (folder / ("." + target.filename().string() + ".XXXXXX")).string();
        Descriptor file(::mkostemp(name_.data(), O_CLOEXEC));
        if (!file.good()) {
            const int error = errno;
            name_.clear();
            fail("cannot write", target, error);
        }
        try {
            fill(file.get(), name_);
            finish(file, privacy);
        } catch (...) {
            ::unlink(name_.c_str());
            throw;
        }
    }
    ~Beside() {
        if (!name_.empty()) ::unlink(name_.c_str());
    }
    Beside(const Beside&) = delete;
    Beside& operator=(const Beside&) = delete;

    void rename_over() {
        if (::rename(name_.c_str(), target_.c_str()) != 0) fail("cannot write", target_, errno);
        name_.clear();
        flush_folder();
    }

    /// False when the target is there already.
    bool link_new() {
        if (::link(name_.c_str(), target_.c_str()) != 0) {
            if (errno == EEXIST) return false;
            fail("cannot write", target_, errno);
        }
        flush_folder();
        return true;
    }

  private:
    void finish(Descriptor& file, Privacy privacy) const {
        const mode_t mask = ::umask(0);
        ::umask(mask);
        const mode_t mode = privacy == Privacy::owner_only ? 0600 : (0666 & ~mask);
        if (::fchmod(file.get(), mode) != 0 || ::fsync(file.get()) != 0 || file.close() != 0)
            fail("cannot write", target_, errno);
    }

    /// Without this a power cut may forget the new name. Not every file system can; that is no
    /// error.
    void flush_folder() const {
        const fs::path folder = target_.has_parent_path() ? target_.parent_path() : fs::path(".");
        const Descriptor handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
        if (handle.good()) ::fsync(handle.get());
    }

    fs::path target_;
    std::string name_;
};

Beside with_bytes(const fs::path& target, std::string_view bytes, Privacy privacy) {
    return {target, privacy, [&](int file, const fs::path&) {
                while (!bytes.empty()) {
                    const ssize_t written = ::write(file, bytes.data(), bytes.size());
                    if (written < 0) {
                        if (errno == EINTR) continue;
                        fail("cannot write", target, errno);
                    }
                    bytes.remove_prefix(static_cast<std::size_t>(written));
                }
            }};
}

}  // namespace

std::string read_file(const fs::path& path, std::size_t most) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (!file.good()) fail("cannot read", path, errno);
    struct stat info {};
    if (::fstat(file.get(), &info) != 0) fail("cannot read", path, errno);
    if (S_ISDIR(info.st_mode)) fail("cannot read", path, EISDIR);
    std::string bytes;
    std::string chunk(1u << 16, '\0');
    for (;;) {
        const ssize_t got = ::read(file.get(), chunk.data(), chunk.size());
        if (got < 0) {
            if (errno == EINTR) continue;
            fail("cannot read", path, errno);
        }
        if (got == 0) return bytes;
        bytes.append(chunk, 0, static_cast<std::size_t>(got));
        if (bytes.size() > most)
            throw SystemError{"cannot read '" + path.string() + "': it holds more than " +
                              std::to_string(most) + " bytes; split it"};
    }
}

std::optional<std::string> read_if_there(const fs::path& path) {
    std::error_code ignored;
    if (!fs::exists(path, ignored)) return std::nullopt;
    return read_file(path);
}

void write_whole(const fs::path& path, std::string_view bytes, Privacy privacy) {
    with_bytes(path, bytes, privacy).rename_over();
}

bool write_new(const fs::path& path, std::string_view bytes, Privacy privacy) {
    return with_bytes(path, bytes, privacy).link_new();
}

void make_whole(const fs::path& path, const std::function<void(const fs::path&)>& fill) {
    Beside(path, Privacy::shared, [&](int, const fs::path& unfinished) {
        fill(unfinished);
    }).rename_over();
}

void make_folder(const fs::path& path) {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) fail("cannot make the folder", path, error.value());
}

fs::path program_path() {
    std::error_code error;
    fs::path path = fs::read_symlink("/proc/self/exe", error);
    return error ? fs::path() : path;
}

}  // namespace gallipot::system
