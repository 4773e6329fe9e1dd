#pragma once

#include <deque>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The file system, and what it may refuse us. The only layer below `command` that touches it.
namespace gallipot::system {

/// The system failed us (no such file, disk full, no right to write): exit code 3. The message
/// names the path and the reason and says what to do.
struct SystemError {
    std::string message;
};

inline constexpr std::size_t most_read = 64u << 20;

/// The whole file. Throws SystemError; a file of more than `most` bytes is refused.
std::string read_file(const std::filesystem::path& path, std::size_t most = most_read);

/// Like read_file, but nothing when there is no such file. One that may not be read is an error.
std::optional<std::string> read_if_there(const std::filesystem::path& path);

enum class Privacy { shared, owner_only };

/// Writes the file whole or not at all: beside its place, flushed to the disk, then renamed over
/// it. An old file stays as it was until the new one is complete. Throws SystemError.
void write_whole(const std::filesystem::path& path, std::string_view bytes,
                 Privacy privacy = Privacy::shared);

/// Like write_whole, but false and nothing written when a file of that name is there already.
bool write_new(const std::filesystem::path& path, std::string_view bytes,
               Privacy privacy = Privacy::shared);

/// Like write_whole, for a file that somebody else writes: `fill` is given the name of an empty
/// file beside `path` and leaves it complete.
void make_whole(const std::filesystem::path& path,
                const std::function<void(const std::filesystem::path& unfinished)>& fill);

class Unfinished;

/// Files that belong together, as the papers of a job do: all are complete on the disk, out of
/// sight, before the first is put in its place. What goes wrong until then leaves every old file as
/// it was. Signals wait while they are put in their places; what nothing can hold up (SIGKILL, a
/// power cut) leaves each file whole, and beside them a note that says that new and old are mixed.
class FileSet {
  public:
    /// The name of that note.
    static constexpr const char* note_name = "gallipot-unfinished.txt";

    FileSet();
    ~FileSet();
    FileSet(const FileSet&) = delete;
    FileSet& operator=(const FileSet&) = delete;

    /// Throws SystemError, as does put_in_place.
    void add(const std::filesystem::path& path, std::string_view bytes);
    /// Once, after the last one was added.
    void put_in_place();

  private:
    [[nodiscard]] std::vector<std::filesystem::path> folders() const;

    std::deque<Unfinished> files_;
};

/// Makes the folder and those above it. Throws SystemError.
void make_folder(const std::filesystem::path& path);

/// Where this program stands, or an empty path when the system will not say.
std::filesystem::path program_path();

}  // namespace gallipot::system
