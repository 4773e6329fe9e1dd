#include <algorithm>
#include <unistd.h>

#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "base/system/throw_errno.hpp"
#include "base/system/unfinished.hpp"

namespace gallipot::system {
namespace fs = std::filesystem;
namespace {

/// Each without a name holds a descriptor, of which a process usually has 1024.
constexpr std::size_t maximum_without_name = 256;

std::string note_text() {
    return std::string(unfinished_note) +
           " in this folder. Each file is whole, but some are\n"
           "new and some are old or not there yet. Do not print them: run the same command again. "
           "It takes\nthis note away.\n";
}

}  // namespace

FileSet::FileSet() = default;
FileSet::~FileSet() = default;

void FileSet::add(const fs::path& path, std::string_view bytes, Privacy privacy) {
    check_output(path, bytes.substr(0, head_size));
    if (!targets_.insert(path.lexically_normal()).second)
        throw UsageError("cannot write " + diag::quoted(path.string()) +
                         ": two outputs would have that name; give another to one of them");
    Unfinished& file =
        files_.emplace_back(path, privacy,
                            files_.size() < maximum_without_name ? Unfinished::Name::not_needed
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
    const SignalBlock together;
    const auto all = folders();
    std::vector<fs::path> notes;  // that are there
    const auto take_notes_away = [&] {
        for (const auto& note : notes) ::unlink(note.c_str());
    };
    std::size_t placed = 0;
    try {
        // One file is whole as it is. With more, the note comes before them and goes after them.
        if (files_.size() > 1)
            for (const auto& folder : all) {
                check_output(folder / note_name, unfinished_note);
                write_whole(folder / note_name, note_text());
                notes.push_back(folder / note_name);
            }
        for (auto& file : files_) {
            check_output(file.target(), file.head());
            file.put_over();
            ++placed;
        }
    } catch (const Error& error) {
        if (placed > 0)
            throw SystemError(error.what() + (". Of " + std::to_string(files_.size())) + " files " +
                              std::to_string(placed) + " are new: run it again before you use any");
        take_notes_away();
        throw;
    }
    for (const auto& folder : all) flush_folder(folder);
    take_notes_away();
}

}  // namespace gallipot::system
