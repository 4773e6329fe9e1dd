#include "base/system/files.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

#include "base/system/memory.hpp"
#include "base/system/refusal.hpp"
#include "base/system/unfinished.hpp"

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

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

  private:
    int fd_;
};

std::string read_all(const Descriptor& file, const fs::path& path, std::size_t most) {
    struct stat info {};
    if (::fstat(file.get(), &info) != 0) refuse("cannot read", path, errno);
    if (S_ISDIR(info.st_mode)) refuse("cannot read", path, EISDIR);
    std::string bytes;
    std::size_t used = 0;
    // What the file says it holds and one byte more, in which its end shows; a pipe says nothing.
    std::size_t room = std::min(static_cast<std::size_t>(info.st_size), most) + 1;
    for (;;) {
        if (used == bytes.size()) {
            bytes.reserve(room);
            touch(bytes.data() + used, room - used);
            bytes.resize(room);
            room += std::max(room, std::size_t{1} << 16);
        }
        const ssize_t got = ::read(file.get(), bytes.data() + used, bytes.size() - used);
        if (got < 0) {
            if (errno == EINTR) continue;
            refuse("cannot read", path, errno);
        }
        used += static_cast<std::size_t>(got);
        if (used > most)
            throw SystemError{"cannot read '" + path.string() + "': it holds more than " +
                              std::to_string(most) + " bytes; split it"};
        if (got == 0) break;
    }
    bytes.resize(used);
    return bytes;
}

}  // namespace

std::string read_file(const fs::path& path, std::size_t most) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (!file.good()) refuse("cannot read", path, errno);
    return read_all(file, path, most);
}

std::optional<std::string> read_if_there(const fs::path& path) {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.good()) return read_all(file, path, most_read);
    if (errno == ENOENT || errno == ENOTDIR) return std::nullopt;
    refuse("cannot read", path, errno);
}

void write_whole(const fs::path& path, std::string_view bytes, Privacy privacy) {
    Unfinished file(path, privacy);
    file.write(bytes);
    file.flush();
    file.put_over();
    flush_folder(folder_of(path));
}

bool write_new(const fs::path& path, std::string_view bytes, Privacy privacy) {
    Unfinished file(path, privacy);
    file.write(bytes);
    file.flush();
    if (!file.put_new()) return false;
    flush_folder(folder_of(path));
    return true;
}

void make_whole(const fs::path& path, const std::function<void(const fs::path&)>& fill) {
    Unfinished file(path, Privacy::shared, Unfinished::Name::needed);
    fill(file.name());
    file.flush();
    file.put_over();
    flush_folder(folder_of(path));
}

void make_folder(const fs::path& path) {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) refuse("cannot make the folder", path, error.value());
}

fs::path program_path() {
    std::error_code error;
    fs::path path = fs::read_symlink("/proc/self/exe", error);
    return error ? fs::path() : path;
}

}  // namespace gallipot::system
