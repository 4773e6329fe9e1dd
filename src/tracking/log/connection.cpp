#include "tracking/log/connection.hpp"

#include <SQLiteCpp/Statement.h>
#include <array>
#include <chrono>
#include <sqlite3.h>
#include <sys/stat.h>
#include <thread>

#include "base/diag/utf8.hpp"
#include "tracking/log/schema.hpp"

namespace gallipot::log {
namespace {

constexpr int patience_ms = 5000;

/// Steps of SQLite's machine between two calls of count_steps.
constexpr int steps_a_call = 10'000;
/// No question of ours takes more than some hundred steps for an entry, and an entry takes more
/// than 100 bytes with its indexes.
constexpr std::int64_t steps_at_minimum = 20'000'000;
constexpr std::int64_t steps_a_byte = 20;

/// More than any field, statement or row of ours takes.
constexpr std::array<std::pair<int, int>, 8> limits{{{SQLITE_LIMIT_LENGTH, 1 << 20},
                                                     {SQLITE_LIMIT_SQL_LENGTH, 20'000},
                                                     {SQLITE_LIMIT_COLUMN, 64},
                                                     {SQLITE_LIMIT_EXPR_DEPTH, 50},
                                                     {SQLITE_LIMIT_COMPOUND_SELECT, 5},
                                                     {SQLITE_LIMIT_ATTACHED, 0},
                                                     {SQLITE_LIMIT_TRIGGER_DEPTH, 3},
                                                     {SQLITE_LIMIT_WORKER_THREADS, 0}}};

constexpr std::size_t longest_quote = 200;  ///< characters of what SQLite says

constexpr std::int64_t thoroughly_up_to = 4 << 20;  ///< bytes

/// The newest tables, then WAL, in which readers do not wait for a writer nor a writer for readers;
/// the file itself remembers it.
void make_ready(SQLite::Database& database, const std::string& file) {
    migrate(database, file);
    if (database.execAndGet("PRAGMA journal_mode = WAL").getString() != "wal")
        throw system::SystemError{"the visit log " + diag::quoted(file) +
                                  " cannot be shared where it lies; keep the job on a disk of this "
                                  "machine"};
}

int flags_for(Access access) {
    const int flags = SQLite::OPEN_NOMUTEX | SQLite::OPEN_READWRITE;
    return access == Access::create ? flags | SQLite::OPEN_CREATE : flags;
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
        case SQLITE_TOOBIG:
        case SQLITE_INTERRUPT:
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
    // What SQLite says may quote the file.
    return system::SystemError(message + " (" + diag::printable(error.what(), longest_quote) + ")");
}

std::optional<FileState> state_of(const std::string& file) {
    struct stat found {};
    if (::stat(file.c_str(), &found) != 0) return std::nullopt;
    return FileState{found.st_dev, found.st_ino, found.st_size,
                     found.st_mtim.tv_sec * std::int64_t{1'000'000'000} + found.st_mtim.tv_nsec};
}

Connection::Connection(const std::string& file, Access access)
    : database(file, flags_for(access), patience_ms), file_(file) {
    if (const auto state = state_of(file)) opened_ = *state;
    restrict();
    allow_steps();
    if (access == Access::read) database.exec("PRAGMA query_only = ON");
    if (access != Access::create) {
        verify(database, file);
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

/// A hostile file must neither run what it brings along nor keep us busy. First of all, before
/// anything of it is read.
void Connection::restrict() {
    sqlite3* const handle = database.getHandle();
    for (const auto& [limit, maximum] : limits) sqlite3_limit(handle, limit, maximum);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_VIEW, 0, nullptr);
    sqlite3_progress_handler(handle, steps_a_call, count_steps, this);
    database.exec("PRAGMA cell_size_check = ON");
    database.exec("PRAGMA synchronous = FULL");
    database.exec("PRAGMA foreign_keys = ON");
}

void Connection::allow_steps() {
    const auto state = state_of(file_);
    const std::int64_t bytes = state ? state->bytes : 0;
    calls_left_ = (steps_at_minimum + steps_a_byte * bytes) / steps_a_call;
}

int Connection::count_steps(void* connection) {
    return --static_cast<Connection*>(connection)->calls_left_ < 0 ? 1 : 0;
}

bool Connection::in_place() const {
    int moved = 0;
    if (sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved) !=
            SQLITE_OK ||
        moved != 0)
        return false;
    const auto there = state_of(file_);
    return there && there->same_file(opened_);
}

void check_whole(SQLite::Database& database, const std::string& file) {
    const std::int64_t bytes = database.execAndGet("PRAGMA page_count").getInt64() *
                               database.execAndGet("PRAGMA page_size").getInt64();
    SQLite::Statement check(database, bytes <= thoroughly_up_to ? "PRAGMA integrity_check(1)"
                                                                : "PRAGMA quick_check(1)");
    const std::string finding = check.executeStep() ? check.getColumn(0).getString() : "no answer";
    if (finding != "ok")
        throw system::SystemError{"the visit log '" + file + "' is damaged (" +
                                  diag::printable(finding, longest_quote) +
                                  "); keep the file as it is, and put a backup in its place"};
}

}  // namespace gallipot::log
