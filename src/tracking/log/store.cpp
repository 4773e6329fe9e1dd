#include "tracking/log/store.hpp"

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <cstdlib>
#include <sqlite3.h>
#include <variant>

#include "tracking/log/entries.hpp"

namespace gallipot::log {
namespace fs = std::filesystem;
namespace {

/// Moves what was committed from the -wal file into the log itself, so that between two writes the
/// log is one whole file. What keeps it from that costs nothing: it is moved the next time.
void empty_wal(SQLite::Database& database) {
    try {
        constexpr int patience_ms = 200;  // for readers
        database.setBusyTimeout(patience_ms);
        database.exec("PRAGMA wal_checkpoint(TRUNCATE)");
    } catch (const SQLite::Exception&) {
    }
}

[[noreturn]] void refuse_unconfirmed(const std::string& file) {
    throw system::SystemError{"what was recorded cannot be read again from the visit log '" + file +
                              "'; look whether it is there before you enter it once more"};
}

/// Nothing can be written where the file lies, which reading in WAL mode needs too.
bool is_unwritable(const SQLite::Exception& error) {
    const int code = error.getErrorCode();
    return code == SQLITE_READONLY || code == SQLITE_CANTOPEN || code == SQLITE_PERM;
}

}  // namespace

void Writer::commit(SQLite::Transaction& transaction, std::int64_t first, std::int64_t last,
                    const std::function<bool(const Entry&)>& same) {
    transaction.commit();
    empty_wal(connection_.database);
    if (!connection_.in_place()) refuse_unconfirmed(file_);
    Connection again(file_, Access::read);
    if (!again.opened().same_file(connection_.opened())) refuse_unconfirmed(file_);
    SQLite::Statement select(
        again.database,
        "SELECT " + entry_columns + " FROM entry WHERE number BETWEEN ? AND ? ORDER BY number");
    select.bind(1, first);
    select.bind(2, last);
    std::int64_t next = first;
    while (select.executeStep()) {
        const auto row = read_row(select);
        const auto* entry = std::get_if<Entry>(&row);
        if (entry == nullptr || entry->number != next || !same(*entry)) refuse_unconfirmed(file_);
        ++next;
    }
    if (next != last + 1) refuse_unconfirmed(file_);
}

Store::Store(std::string file, Opening opening) : file_(std::move(file)) {
    guarded(
        [&] {
            try {
                Connection connection(file_, Access::create);
                if (opening == Opening::to_read) return;
                check_whole(connection.database, file_);
                known_ = newest(connection.database, maximum_entries);
            } catch (const SQLite::Exception& error) {
                if (opening != Opening::to_read || !is_unwritable(error) || !state_of(file_)) throw;
                open_copy();
            }
        },
        [] {});
}

Store::~Store() {
    reader_.reset();
    std::error_code ignored;
    if (!copied_to_.empty()) fs::remove_all(copied_to_, ignored);
}

/// Reads a copy of our own, made with what is not yet in the log itself.
void Store::open_copy() {
    std::error_code error;
    std::string folder = (fs::temp_directory_path(error) / "gallipot-log-XXXXXX").string();
    if (error || ::mkdtemp(folder.data()) == nullptr)
        throw system::SystemError{"the visit log '" + file_ +
                                  "' lies where nothing can be written, and there is no room for a "
                                  "copy to read; set TMPDIR to a folder that may be written to"};
    copied_to_ = folder;
    const fs::path copy = copied_to_ / "log";
    for (const char* part : {"", "-wal"}) {
        if (!state_of(file_ + part)) continue;
        fs::copy_file(file_ + part, copy.string() + part, error);
        if (error)
            throw system::SystemError{"cannot copy the visit log '" + file_ + part + "' to '" +
                                      folder + "': " + error.message()};
        fs::permissions(copy.string() + part, fs::perms::owner_read | fs::perms::owner_write,
                        error);
    }
    file_ = copy.string();
    const Connection migrated(file_, Access::create);
}

const std::string& Store::there() const {
    if (!state_of(file_))
        throw system::SystemError{"the visit log '" + file_ +
                                  "' is gone from its place (deleted, moved or renamed); put it "
                                  "back, or a backup, and enter it again"};
    return file_;
}

Connection& Store::reader() const {
    const FileState now = *state_of(there());
    if (!reader_ || read_state_ != now) {
        reader_.reset();
        reader_ = std::make_unique<Connection>(file_, Access::read);
        read_state_ = now;
    }
    reader_->allow_steps();
    return *reader_;
}

Store::Newest Store::newest(SQLite::Database& database, std::int64_t up_to) {
    SQLite::Statement select(
        database, "SELECT number, token FROM entry WHERE number <= ? ORDER BY number DESC LIMIT 1");
    select.bind(1, up_to);
    if (!select.executeStep()) return {};
    return {select.getColumn(0).getInt64(), select.getColumn(1).getString()};
}

void Store::let_go_of_old_file() {
    const std::lock_guard lock(reading_);
    if (reader_ && read_state_ != state_of(file_)) reader_.reset();
}

void Store::check_before_writing(Connection& connection) {
    check_whole(connection.database, file_);
    if (!connection.in_place() || newest(connection.database, known_.number) != known_) {
        known_ = newest(connection.database, maximum_entries);
        throw system::SystemError{"another file has taken the place of the visit log '" + file_ +
                                  "', without all that was recorded; see whether it is the right "
                                  "one, and enter it again"};
    }
}

}  // namespace gallipot::log
