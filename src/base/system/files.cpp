#include "base/system/files.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <unistd.h>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/descriptor.hpp"
#include "base/system/guard.hpp"
#include "base/system/throw_errno.hpp"
#include "base/system/unfinished.hpp"

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

[[noreturn]] void refuse_kind(const fs::path& path, mode_t mode) {
    throw SystemError("cannot read " + diag::quoted(path.string()) + ": it is " +
                      kind_of_file(mode) + " and no file; move it away or give another name");
}

/// Opening a pipe that nobody writes to must not wait.
Descriptor open_to_read(const fs::path& path) {
    return Descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
}

std::string read_all(const Descriptor& file, const fs::path& path, std::size_t maximum) {
    struct stat info {};
    if (::fstat(file.get(), &info) != 0) throw_errno("cannot read", path, errno);
    if (!S_ISREG(info.st_mode)) refuse_kind(path, info.st_mode);
    protect_open_file(file.get());
    std::string bytes;
    std::size_t used = 0;
    // What the file says it holds and one byte more, in which its end shows; some in /proc say 0.
    std::size_t room = std::min(static_cast<std::size_t>(info.st_size), maximum) + 1;
    for (;;) {
        if (used == bytes.size()) {
            bytes.resize(room);
            room += std::max(room, std::size_t{1} << 16);
        }
        const ssize_t got = ::read(file.get(), bytes.data() + used, bytes.size() - used);
        if (got < 0) {
            if (errno == EINTR) continue;
            throw_errno("cannot read", path, errno);
        }
        used += static_cast<std::size_t>(got);
        if (used > maximum)
            throw SystemError("cannot read " + diag::quoted(path.string()) +
                              ": it holds more than " + std::to_string(maximum) +
                              " bytes; split it");
        if (got == 0) break;
    }
    bytes.resize(used);
    return bytes;
}

/// "; did you mean 'hall.yaml'?" where a file of nearly that name lies in the folder.
diag::Text near_name(const fs::path& path) {
    constexpr int maximum_looked_at = 2000;
    std::vector<std::string> names;
    std::error_code none;
    int left = maximum_looked_at;
    for (fs::directory_iterator entry(folder_of(path), none), end; entry != end && left > 0;
         entry.increment(none), --left)
        names.push_back(entry->path().filename().string());
    const std::string near = diag::nearest(path.filename().string(), names);
    return near.empty() ? diag::say("check the name and the folder")
                        : diag::say("did you mean '{}'?", diag::printable(near));
}

[[noreturn]] void refuse_to_read(const fs::path& path, int error) {
    refuse_irregular(path);  // a socket is never opened
    throw_errno("cannot read", path, error);
}

}  // namespace

std::optional<Unreadable> why_unreadable(const fs::path& path) {
    struct stat info {};
    if (::stat(path.c_str(), &info) == 0) {
        if (S_ISREG(info.st_mode)) return std::nullopt;
        return Unreadable{diag::say("it is {}", diag::term(kind_of_file(info.st_mode))),
                          "give the name of a file"};
    }
    if (errno != ENOENT && errno != ENOTDIR) throw_errno("cannot read", path, errno);
    return Unreadable{"there is no such file", near_name(path)};
}

std::string read_named_file(const fs::path& path, std::size_t maximum) {
    if (const auto unreadable = why_unreadable(path))
        throw UsageError("cannot read " + diag::quoted(path.string()) + ": " +
                         unreadable->why.english() + "; " + unreadable->remedy.english());
    return read_file(path, maximum);
}

void refuse_irregular(const fs::path& path) {
    struct stat info {};
    if (::stat(path.c_str(), &info) == 0 && !S_ISREG(info.st_mode)) refuse_kind(path, info.st_mode);
}

Rights rights_of(const fs::path& path) {
    struct stat info {};
    if (::stat(path.c_str(), &info) != 0) throw_errno("cannot read", path, errno);
    if (info.st_uid != ::geteuid()) return Rights::owned_by_another;
    return (info.st_mode & (S_IRWXG | S_IRWXO)) != 0 ? Rights::others_may_read : Rights::owner_only;
}

std::string read_file(const fs::path& path, std::size_t maximum) {
    const Descriptor file = open_to_read(path);
    if (!file.good()) refuse_to_read(path, errno);
    return read_all(file, path, maximum);
}

std::optional<std::string> read_if_there(const fs::path& path) {
    const Descriptor file = open_to_read(path);
    if (file.good()) return read_all(file, path, maximum_read);
    if (errno == ENOENT || errno == ENOTDIR) return std::nullopt;
    refuse_to_read(path, errno);
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
    check_output_name(path);
    Unfinished file(path, Privacy::shared, Unfinished::Name::needed);
    fill(file.name());
    file.flush();
    check_output(path, head_of(file.name()));
    file.put_over();
    flush_folder(folder_of(path));
}

void make_folder(const fs::path& path) {
    std::error_code error;
    if (fs::create_directories(path, error)) flush_folder(folder_of(path));
    struct stat info {};
    const bool in_the_way = error == std::errc::not_a_directory ||
                            (::lstat(path.c_str(), &info) == 0 && !S_ISDIR(info.st_mode));
    if (error && in_the_way)
        throw UsageError("cannot make the folder " + diag::quoted(path.string()) +
                         ": a file is in the way; give another name");
    if (error) throw_errno("cannot make the folder", path, error.value());
}

fs::path program_path() {
    std::error_code error;
    fs::path path = fs::read_symlink("/proc/self/exe", error);
    return error ? fs::path() : path;
}

}  // namespace gallipot::system
