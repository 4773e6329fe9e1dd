#include "tracking/log/schema.hpp"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <array>

#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"

namespace gallipot::log {
namespace {

/// Step n leads from schema n to n + 1. Steps that have been released are never changed.
constexpr std::array steps{
    R"(
CREATE TABLE entry (
  number    INTEGER PRIMARY KEY AUTOINCREMENT,
  token     TEXT    NOT NULL UNIQUE DEFAULT (lower(hex(randomblob(16)))),
  station   TEXT    NOT NULL,
  container INTEGER NOT NULL DEFAULT 0,
  time      TEXT    NOT NULL,   -- where the job is, YYYY-MM-DD HH:MM
  "by"      TEXT    NOT NULL,
  seen      INTEGER,
  dead      INTEGER,
  level_percent INTEGER,
  state     TEXT    NOT NULL,   -- words apart by a space
  did       TEXT    NOT NULL,
  note      TEXT    NOT NULL,
  corrects  INTEGER REFERENCES entry (number),
  withdrawn INTEGER NOT NULL DEFAULT 0,
  recorded  INTEGER NOT NULL    -- UTC, seconds since 1970
) STRICT;
CREATE INDEX entry_of_station ON entry (station, time, number);
CREATE INDEX entry_counted ON entry (station, time, number) WHERE seen IS NOT NULL;
CREATE INDEX entry_replaced ON entry (station, time, number) WHERE instr(did, 'replaced') > 0;
CREATE INDEX entry_in_time ON entry (time, number);
CREATE UNIQUE INDEX entry_corrects ON entry (corrects) WHERE corrects IS NOT NULL;
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
)",
};

int pragma(SQLite::Database& database, const char* name) {
    return database.execAndGet(std::string("PRAGMA ") + name).getInt();
}

}  // namespace

int newest_schema() {
    return static_cast<int>(steps.size());
}

void migrate(SQLite::Database& database, const std::string& file) {
    if (pragma(database, "user_version") == newest_schema() &&
        pragma(database, "application_id") == application_id)
        return;
    // Looked at with the lock held: another process may be doing the same.
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    const int id = pragma(database, "application_id");
    int version = pragma(database, "user_version");
    const bool empty = id == 0 && version == 0 &&
                       database.execAndGet("SELECT count(*) FROM sqlite_master").getInt() == 0;
    if (id != application_id && !empty)
        throw system::SystemError{
            diag::quoted(file) +
            " is not a visit log of gallipot; move it away, so that a new log "
            "can be made"};
    if (version > newest_schema())
        throw system::SystemError{diag::quoted(file) +
                                  " was written by a newer gallipot (log format " +
                                  std::to_string(version) + ", this one knows " +
                                  std::to_string(newest_schema()) + "); install that one"};
    for (; version < newest_schema(); ++version)
        database.exec(steps.at(static_cast<std::size_t>(version)));
    database.exec("PRAGMA application_id = " + std::to_string(application_id));
    database.exec("PRAGMA user_version = " + std::to_string(newest_schema()));
    transaction.commit();
}

}  // namespace gallipot::log
