#include "tracking/log/connection.hpp"

#include <chrono>
#include <sqlite3.h>
#include <thread>

#include "base/diag/utf8.hpp"
#include "tracking/log/schema.hpp"

namespace gallipot::log {
namespace {

constexpr int patience_ms = 5000;

/// The newest tables, then WAL, in which readers do not wait for a writer nor a writer for readers;
/// the file itself remembers it.
void make_ready(SQLite::Database& database, const std::string& file) {
    migrate(database, file);
    if (database.execAndGet("PRAGMA journal_mode = WAL").getString() != "wal")
        throw system::SystemError{"the visit log " + diag::quoted(file) +
                                  " cannot be shared where it lies; keep the job on a disk of this "
                                  "machine"};
}

}  // namespace

system::SystemError explain(const SQLite::Exception& error, const std::string& file) {
    std::string message = "the visit log " + diag::quoted(file) + ": ";
    switch (error.getErrorCode()) {
        case SQLITE_FULL:
            message += "the disk is full; free some space and enter it again";
            break;
        case SQLITE_READONLY:
        case SQLITE_PERM:
            message += "it may not be written to; change the rights of the file and its folder";
            break;
        case SQLITE_CANTOPEN:
            message +=
                "it cannot be opened; check that its folder is there and may be written to, and "
                "that the disk is not read-only";
            break;
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            message += "another program has kept it locked for 5 seconds; close it and try again";
            break;
        case SQLITE_CORRUPT:
            message += "it is damaged; keep the file as it is, and put a backup in its place";
            break;
        case SQLITE_NOTADB:
            message += "it is not a visit log; move it away, so that a new log can be made";
            break;
        case SQLITE_IOERR:
            message += "reading or writing failed; check the disk";
            break;
        default:
            break;
    }
    return system::SystemError(message + " (" + error.what() + ")");
}

Connection::Connection(const std::string& file, Access access)
    : database(file,
               SQLite::OPEN_NOMUTEX | SQLite::OPEN_READWRITE |
                   (access == Access::write ? SQLite::OPEN_CREATE : 0),
               patience_ms) {
    // A hostile file must not run what it brings along.
    database.exec("PRAGMA trusted_schema = OFF");
    database.exec("PRAGMA synchronous = FULL");
    database.exec("PRAGMA foreign_keys = ON");
    if (access == Access::read) {
        database.exec("PRAGMA query_only = ON");
        return;
    }
    // While another process does the same for the first time, SQLite answers "busy" at once: it
    // does not wait where waiting could be for ever.
    const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds(patience_ms);
    for (;;) {
        try {
            make_ready(database, file);
            return;
        } catch (const SQLite::Exception& error) {
            if (error.getErrorCode() != SQLITE_BUSY || std::chrono::steady_clock::now() > until)
                throw;
            std::this_thread::sleep_for(std::chrono::milliseconds(20));
        }
    }
}

}  // namespace gallipot::log
