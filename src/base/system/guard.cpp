#include "base/system/guard.hpp"

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <map>
#include <mutex>
#include <set>
#include <sys/stat.h>
#include <utility>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "base/system/error.hpp"
#include "base/system/throw_errno.hpp"
#include "base/system/unfinished.hpp"

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

/// Two names of one file (hard links, letter case where it does not count) agree in this.
using Identity = std::pair<dev_t, ino_t>;

Identity identity_of(const struct stat& info) {
    return {info.st_dev, info.st_ino};
}

/// Links in the folder are followed, one in the name itself is not.
fs::path full_name(const fs::path& path) {
    std::error_code unknown;
    fs::path folder = fs::canonical(folder_of(path), unknown);
    if (unknown) folder = fs::absolute(folder_of(path), unknown).lexically_normal();
    return folder / path.filename();
}

class Protected {
  public:
    void add(const fs::path& path, const std::string& what) {
        const std::lock_guard lock(mutex_);
        named_.insert_or_assign(full_name(path), what);
    }
    void add(const Identity& file) {
        const std::lock_guard lock(mutex_);
        read_.insert(file);
    }
    void clear() {
        const std::lock_guard lock(mutex_);
        named_.clear();
        read_.clear();
    }

    /// What `path` is that protects it, or empty. `file`: what is there now, if anything.
    [[nodiscard]] std::string reason(const fs::path& path, const struct stat* file) const {
        const std::lock_guard lock(mutex_);
        if (const auto same = named_.find(full_name(path)); same != named_.end())
            return same->second;
        if (file == nullptr) return {};
        for (const auto& [name, what] : named_) {
            struct stat info {};
            if (::stat(name.c_str(), &info) == 0 && identity_of(info) == identity_of(*file))
                return what;
        }
        return read_.count(identity_of(*file)) > 0 ? "a file that is read here" : "";
    }

  private:
    mutable std::mutex mutex_;
    std::map<fs::path, std::string> named_;
    std::set<Identity> read_;
};

Protected& protected_files() {
    static Protected files;
    return files;
}

[[noreturn]] void refuse_output(const fs::path& path, const std::string& reason) {
    throw UsageError("cannot write " + diag::quoted(path.string()) + ": " + reason);
}

/// Whether a file is there; refuses all but a regular one that is not protected.
bool is_there(const fs::path& path) {
    if (!path.has_filename() || path.filename() == "." || path.filename() == "..")
        refuse_output(path, "it is a folder; give the name of a file");
    struct stat info {};
    if (::lstat(path.c_str(), &info) != 0) {
        if (const auto what = protected_files().reason(path, nullptr); !what.empty())
            refuse_output(path, "that is the name of " + what + "; give another name");
        return false;  // what else is wrong, writing will tell
    }
    if (S_ISLNK(info.st_mode))
        refuse_output(path,
                      "it is a link to another file, and links are neither followed nor "
                      "replaced; give another name");
    if (!S_ISREG(info.st_mode))
        refuse_output(path, "it is " + kind_of_file(info.st_mode) + "; give the name of a file");
    if (const auto what = protected_files().reason(path, &info); !what.empty())
        refuse_output(path, "it is " + what + "; give another name");
    return true;
}

bool begins_html(std::string_view head) {
    constexpr std::string_view begin = "<!doctype html";
    return head.size() >= begin.size() &&
           strings::same_letters(begin, head.substr(0, begin.size()));
}

/// An SQLite file as https://www.sqlite.org/fileformat2.html (section 1.3) describes its head: the
/// magic text, at 18 how it is written (2: with a write-ahead log, as every log in use is, but no
/// copy), at 68 whose file it is.
std::string kind_of_database(std::string_view head) {
    constexpr std::size_t how_written = 18, application = 68, application_size = 4;
    if (head.size() < application + application_size) return {};
    return "database, " + std::string(head.substr(how_written, 1)) +
           std::string(head.substr(application, application_size));
}

/// Files of one kind agree in this text. Empty: of no kind that is ever replaced.
std::string kind_of(std::string_view head) {
    using namespace std::string_view_literals;
    if (head.starts_with("%PDF-")) return "PDF";
    if (head.starts_with("BEGIN:VCALENDAR")) return "calendar";
    if (head.starts_with("\xFF\xD8\xFF")) return "JPEG";
    if (head.starts_with(unfinished_note)) return "note";
    if (head.starts_with("SQLite format 3\0"sv)) return kind_of_database(head);
    return begins_html(head) ? "HTML" : "";
}

}  // namespace

void protect(const fs::path& path, const std::string& what) {
    protected_files().add(path, what);
}

void protect_open_file(int descriptor) {
    struct stat info {};
    if (::fstat(descriptor, &info) == 0) protected_files().add(identity_of(info));
}

void forget_protected() {
    protected_files().clear();
}

void check_output_name(const fs::path& path) {
    struct stat info {};
    if (::stat(folder_of(path).c_str(), &info) != 0 && (errno == ENOENT || errno == ENOTDIR))
        refuse_output(path, "there is no folder " + diag::quoted(folder_of(path).string()) +
                                "; make it, or give another name");
    is_there(path);
}

void check_output(const fs::path& path, std::string_view head) {
    if (!is_there(path)) return;
    const std::string kind = kind_of(head);
    if (kind.empty() || kind_of(head_of(path)) != kind)
        refuse_output(path,
                      "a file of another kind is there and is not replaced; move it away or give "
                      "another name");
}

}  // namespace gallipot::system
