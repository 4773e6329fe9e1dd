#include <algorithm>
#include <cerrno>
#include <sys/stat.h>
#include <unistd.h>

#include "base/system/files.hpp"
#include "base/system/refusal.hpp"
#include "base/system/unfinished.hpp"

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

/// Each without a name holds a descriptor, of which a process usually has 1024.
constexpr std::size_t most_without_name = 256;

constexpr std::string_view note_text =
    "gallipot was stopped while it put new papers in this folder. Each file is whole, but some "
    "are\n"
    "new and some are old or not there yet. Do not print them: run the same command again. It "
    "takes\nthis note away.\n";

bool is_folder(const fs::path& path) {
    struct stat info {};
    return ::stat(path.c_str(), &info) == 0 && S_ISDIR(info.st_mode);
}

}  // namespace

FileSet::FileSet() = default;
FileSet::~FileSet() = default;

void FileSet::add(const fs::path& path, std::string_view bytes) {
    if (is_folder(path)) refuse("cannot write", path, EISDIR);
    Unfinished& file =
        files_.emplace_back(path, Privacy::shared,
                            files_.size() < most_without_name ? Unfinished::Name::not_needed
                                                              : Unfinished::Name::needed);
    file.write(bytes);
    // Waiting for the disk once, at the end, takes a third of waiting for it after each.
    file.begin_flush();
}

std::vector<fs::path> FileSet::folders() const {
    std::vector<fs::path> out;
    for (const auto& file : files_) {
        const fs::path folder = folder_of(file.target());
        if (std::find(out.begin(), out.end(), folder) == out.end()) out.push_back(folder);
    }
    return out;
}

void FileSet::put_in_place() {
    for (auto& file : files_) file.flush();
    const Undisturbed together;
    const auto all = folders();
    // One file is whole as it is. With more, the note comes before them and goes after them.
    const bool noted = files_.size() > 1;
    const auto take_notes_away = [&] {
        if (noted)
            for (const auto& folder : all) ::unlink((folder / note_name).c_str());
    };
    std::size_t placed = 0;
    try {
        if (noted)
            for (const auto& folder : all) write_whole(folder / note_name, note_text);
        for (auto& file : files_) {
            file.put_over();
            ++placed;
        }
    } catch (const SystemError& error) {
        if (placed > 0)
            throw SystemError{error.message + ". Of " + std::to_string(files_.size()) + " files " +
                              std::to_string(placed) + " are new: run it again before you use any"};
        take_notes_away();
        throw;
    }
    for (const auto& folder : all) flush_folder(folder);
    take_notes_away();
}

}  // namespace gallipot::system
