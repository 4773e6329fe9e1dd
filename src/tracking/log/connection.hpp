#pragma once

#include <SQLiteCpp/Database.h>
#include <cstdint>
#include <ctime>
#include <optional>
#include <string>
#include <sys/types.h>

#include "base/system/files.hpp"

/// One connection to a log's file, which may come from anywhere. Private to this folder.
namespace gallipot::log {

/// What SQLite's error means for the user, and what to do about it.
system::SystemError explain(const SQLite::Exception& error, const std::string& file);

/// Which file stands at a path, and when it was written to last.
struct FileState {
    dev_t device = 0;
    ino_t inode = 0;
    off_t bytes = 0;
    std::int64_t modified_ns = 0;

    [[nodiscard]] bool same_file(const FileState& other) const {
        return device == other.device && inode == other.inode;
    }
    bool operator==(const FileState&) const = default;
};
/// None when nothing is there.
std::optional<FileState> state_of(const std::string& file);

enum class Access {
    read,
    write,
    create  ///< makes the file when it is not there, and brings it to the newest format
};

/// Every commit is on the disk before it returns, and other processes are waited for up to five
/// seconds. Nothing in the file is run, and no statement takes more steps than a sound log of its
/// size can need.
class Connection {
  public:
    /// Throws SQLite::Exception and system::SystemError: also for a file that is none of ours.
    Connection(const std::string& file, Access access);
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;

    /// Whether the path still names the file that was opened.
    [[nodiscard]] bool in_place() const;
    [[nodiscard]] const FileState& opened() const { return opened_; }

    /// Before the next question: each has the same number of steps.
    void allow_steps();

    SQLite::Database database;

  private:
    void restrict();
    static int count_steps(void* connection);

    std::string file_;
    FileState opened_;
    std::int64_t calls_left_ = 0;  ///< of count_steps
};

/// Reads all of the file; throws system::SystemError when it is damaged. Small files are also
/// looked over for entries that an index lacks (27 ms for 10,000 entries, 2.7 MB); in larger ones
/// each page and row (55 ms for 100,000).
void check_whole(SQLite::Database& database, const std::string& file);

}  // namespace gallipot::log
