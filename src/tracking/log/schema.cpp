#include "tracking/log/schema.hpp"

#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>
#include <array>
#include <set>

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
    R"(
ALTER TABLE entry ADD COLUMN minutes INTEGER;
ALTER TABLE entry ADD COLUMN young INTEGER;
ALTER TABLE entry ADD COLUMN trap_nights INTEGER;
ALTER TABLE entry ADD COLUMN feeding INTEGER;
CREATE TRIGGER entry_corrects_earlier AFTER INSERT ON entry WHEN NEW.corrects >= NEW.number
  BEGIN SELECT RAISE(ABORT, 'a correction names an earlier entry'); END;
)",
    R"(
CREATE TABLE note (
  number      INTEGER PRIMARY KEY AUTOINCREMENT,
  kind        TEXT    NOT NULL,  -- 'mix' or 'station'
  name        TEXT    NOT NULL,  -- its id in the job
  content     TEXT    NOT NULL,  -- what it was, as JSON
  since       TEXT    NOT NULL,  -- as a time of an entry; empty: from the start
  after_entry INTEGER NOT NULL,  -- the newest entry when it was noted
  recorded    INTEGER NOT NULL   -- UTC, seconds since 1970
) STRICT;
CREATE INDEX note_of ON note (kind, name, number);
CREATE TRIGGER note_stays BEFORE UPDATE ON note
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER note_is_kept BEFORE DELETE ON note
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
)",
    R"(
CREATE TABLE report (
  number   INTEGER PRIMARY KEY AUTOINCREMENT,
  token    TEXT    NOT NULL UNIQUE,
  station  TEXT    NOT NULL,
  time     TEXT    NOT NULL,  -- as a time of an entry
  what     TEXT    NOT NULL,  -- words apart by a space: spilt, missing, pests
  words    TEXT    NOT NULL,
  recorded INTEGER NOT NULL   -- UTC, seconds since 1970
) STRICT;
CREATE INDEX report_of_station ON report (station, number);
CREATE TABLE report_read (
  report   INTEGER PRIMARY KEY REFERENCES report (number),
  recorded INTEGER NOT NULL
) STRICT;
CREATE TABLE phone (
  number   INTEGER PRIMARY KEY AUTOINCREMENT,
  id       TEXT    NOT NULL UNIQUE,
  kind     TEXT    NOT NULL,
  recorded INTEGER NOT NULL
) STRICT;
CREATE TABLE phone_ended (
  id       TEXT    PRIMARY KEY NOT NULL,
  recorded INTEGER NOT NULL
) STRICT;
CREATE TRIGGER report_stays BEFORE UPDATE ON report
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER report_is_kept BEFORE DELETE ON report
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER report_read_stays BEFORE UPDATE ON report_read
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER report_read_is_kept BEFORE DELETE ON report_read
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER phone_stays BEFORE UPDATE ON phone
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER phone_is_kept BEFORE DELETE ON phone
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER phone_ended_stays BEFORE UPDATE ON phone_ended
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
CREATE TRIGGER phone_ended_is_kept BEFORE DELETE ON phone_ended
  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;
)",
    R"(
ALTER TABLE entry ADD COLUMN photos TEXT NOT NULL DEFAULT '';  -- ids apart by a space
)",
};

int pragma(SQLite::Database& database, const char* name) {
    return database.execAndGet(std::string("PRAGMA ") + name).getInt();
}

constexpr std::size_t longest_quote = 80;  ///< characters of the file's own names

/// One table, index, view or trigger as the file describes it.
struct Part {
    std::string type, name, table, sql;
    auto operator<=>(const Part&) const = default;
};

std::set<Part> parts_of(SQLite::Database& database) {
    std::set<Part> parts;
    SQLite::Statement select(database, "SELECT type, name, tbl_name, sql FROM sqlite_master");
    while (select.executeStep())
        parts.insert({select.getColumn(0).getString(), select.getColumn(1).getString(),
                      select.getColumn(2).getString(), select.getColumn(3).getString()});
    return parts;
}

/// What a log of format `version` (1 to the newest) consists of: as SQLite describes one just made.
const std::set<Part>& expected_parts(int version) {
    static const auto all = [] {
        std::array<std::set<Part>, steps.size()> made;
        SQLite::Database memory(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        for (std::size_t i = 0; i < steps.size(); ++i) {
            memory.exec(steps.at(i));
            made.at(i) = parts_of(memory);
        }
        return made;
    }();
    return all.at(static_cast<std::size_t>(version - 1));
}

[[noreturn]] void refuse_foreign(const std::string& file) {
    throw system::SystemError{"'" + file +
                              "' is not a visit log of gallipot; move it away, so that a new log "
                              "can be made"};
}

void check_version(int version, const std::string& file) {
    if (version > newest_schema())
        throw system::SystemError{"'" + file + "' was written by a newer gallipot (log format " +
                                  std::to_string(version) + ", this one knows " +
                                  std::to_string(newest_schema()) + "); install that one"};
    if (version < 1)
        throw system::SystemError{"'" + file + "' has a log format that never was (" +
                                  std::to_string(version) +
                                  "); keep the file as it is, and put a backup in its place"};
}

void check_parts(SQLite::Database& database, int version, const std::string& file) {
    const auto parts = parts_of(database);
    const auto& expected = expected_parts(version);
    for (const Part& part : parts)
        if (!expected.contains(part))
            throw system::SystemError{"'" + file + "' holds a " +
                                      diag::printable(part.type, longest_quote) + " '" +
                                      diag::printable(part.name, longest_quote) +
                                      "' that gallipot did not make, so nothing in it can be "
                                      "trusted; keep the file as it is, and put a backup in its "
                                      "place"};
    for (const Part& part : expected)
        if (!parts.contains(part))
            throw system::SystemError{"the visit log '" + file + "' is damaged (the " + part.type +
                                      " '" + part.name +
                                      "' is missing); keep the file as it is, and put a backup in "
                                      "its place"};
}

}  // namespace

int newest_schema() {
    return static_cast<int>(steps.size());
}

void verify(SQLite::Database& database, const std::string& file) {
    if (pragma(database, "application_id") != application_id) refuse_foreign(file);
    const int version = pragma(database, "user_version");
    check_version(version, file);
    check_parts(database, version, file);
    if (version != newest_schema())
        throw system::SystemError{"'" + file +
                                  "' is a log of an older format, put there meanwhile; start "
                                  "gallipot again, so that it is brought up to date"};
}

void migrate(SQLite::Database& database, const std::string& file) {
    if (pragma(database, "user_version") == newest_schema() &&
        pragma(database, "application_id") == application_id) {
        check_parts(database, newest_schema(), file);
        return;
    }
    // Looked at with the lock held: another process may be doing the same.
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    const int id = pragma(database, "application_id");
    int version = pragma(database, "user_version");
    const bool empty = id == 0 && version == 0 && parts_of(database).empty();
    if (!empty) {
        if (id != application_id) refuse_foreign(file);
        check_version(version, file);
        check_parts(database, version, file);
    }
    for (; version < newest_schema(); ++version)
        database.exec(steps.at(static_cast<std::size_t>(version)));
    database.exec("PRAGMA application_id = " + std::to_string(application_id));
    database.exec("PRAGMA user_version = " + std::to_string(newest_schema()));
    transaction.commit();
}

}  // namespace gallipot::log
