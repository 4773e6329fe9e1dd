#pragma once

#include <deque>
#include <filesystem>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/text.hpp"
#include "base/system/error.hpp"

/// The file system, and what it may refuse us. The only layer below `command` that touches it.
namespace gallipot::system {

inline constexpr std::size_t maximum_read = 64u << 20;

/// The whole file, which no output of this run may replace from then on (guard.hpp). Throws
/// SystemError; a file of more than `most` bytes is refused, and what is no regular file (a folder,
/// a device, a pipe that nobody may ever write to) is never waited for.
std::string read_file(const std::filesystem::path& path, std::size_t maximum = maximum_read);

/// Why a file that a user named cannot be read, and what to do about it.
struct Unreadable {
    diag::Text why, remedy;
};
/// Nothing where a regular file is there. Throws SystemError where the system will not say.
std::optional<Unreadable> why_unreadable(const std::filesystem::path& path);

/// As read_file, for a file that the user named: one that is not there, or is no file, is a
/// UsageError, which offers a file of nearly that name.
std::string read_named_file(const std::filesystem::path& path, std::size_t maximum = maximum_read);

/// Throws SystemError when something is there that is no regular file, which whoever opens it might
/// wait for.
void refuse_irregular(const std::filesystem::path& path);

/// Like read_file, but nothing when there is no such file. One that may not be read is an error.
std::optional<std::string> read_if_there(const std::filesystem::path& path);

enum class Privacy { shared, owner_only };

/// Whose file it is, as far as a secret is concerned.
enum class Rights { owner_only, others_may_read, owned_by_another };
/// Links are followed. Throws SystemError.
Rights rights_of(const std::filesystem::path& path);

/// Writes the file whole or not at all: beside its place, flushed to the disk, then renamed over
/// it. An old file, of whatever kind, stays as it was until the new one is complete: only for what
/// the program names itself. Throws SystemError.
void write_whole(const std::filesystem::path& path, std::string_view bytes,
                 Privacy privacy = Privacy::shared);

/// Like write_whole, but false and nothing written when a file of that name is there already.
bool write_new(const std::filesystem::path& path, std::string_view bytes,
               Privacy privacy = Privacy::shared);

/// An output that somebody else writes: `fill` is given the name of an empty file beside `path` and
/// leaves it complete. An old file is replaced as check_output (guard.hpp) allows. Throws
/// SystemError and UsageError.
void make_whole(const std::filesystem::path& path,
                const std::function<void(const std::filesystem::path& unfinished)>& fill);

class Unfinished;

/// Files that belong together, as the papers of a job do: all are complete on the disk, out of
/// sight, before the first is put in its place. What goes wrong until then leaves every old file as
/// it was. Signals wait while they are put in their places; what nothing can hold up (SIGKILL, a
/// power cut) leaves each file whole, and beside them a note that says that new and old are mixed.
/// Old files are replaced as check_output (guard.hpp) allows.
class FileSet {
  public:
    /// The name of that note.
    static constexpr const char* note_name = "gallipot-unfinished.txt";

    FileSet();
    ~FileSet();
    FileSet(const FileSet&) = delete;
    FileSet& operator=(const FileSet&) = delete;

    /// Throws SystemError and UsageError, as does put_in_place; two of one name are a UsageError.
    void add(const std::filesystem::path& path, std::string_view bytes,
             Privacy privacy = Privacy::shared);
    /// Once, after the last one was added.
    void put_in_place();

  private:
    [[nodiscard]] std::vector<std::filesystem::path> folders() const;

    std::deque<Unfinished> files_;
    std::set<std::filesystem::path> targets_;
};

/// Makes the folder and those above it. Throws SystemError; where something else is in the way,
/// UsageError.
void make_folder(const std::filesystem::path& path);

/// Where this program stands, or an empty path when the system will not say.
std::filesystem::path program_path();

}  // namespace gallipot::system
