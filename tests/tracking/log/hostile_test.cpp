#include <SQLiteCpp/Statement.h>
#include <chrono>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "folder.hpp"
#include "golden.hpp"
#include "plan_for_tests.hpp"
#include "sql.hpp"
#include "tracking/log/connection.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/log.hpp"

/// Log files that somebody made on purpose, or that something damaged.
namespace gallipot::log {
namespace {

using tests::at;
using tests::Folder;
using tests::run_sql;

const Instant some_time{std::chrono::seconds(1'805'000'000)};

visit::Visit seen(int count) {
    visit::Visit visit;
    visit.station = "K1";
    visit.time = at(2027, 3, 18, 8, count % 60);
    visit.seen = count;
    return visit;
}

std::string failure(const std::function<void()>& act) {
    try {
        act();
    } catch (const system::SystemError& error) {
        return error.what();
    }
    return "nothing was thrown";
}

/// Three entries, 1 to 3, and what `statements` do to the file behind the program's back.
std::filesystem::path doctored(const Folder& folder, const std::string& statements) {
    const auto file = folder / "log";
    {
        Log log(file);
        for (int i = 1; i <= 3; ++i) log.record({seen(i), "", {}, false}, some_time);
    }
    const std::string answer = run_sql(file, statements);
    INFO(statements);
    REQUIRE(answer.empty());
    return file;
}

/// Around a change that the triggers would keep from being made.
std::string despite_triggers(const std::string& statement) {
    return "DROP TRIGGER entry_stays;\n" + statement +
           ";\nCREATE TRIGGER entry_stays BEFORE UPDATE ON entry\n"
           "  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;\n";
}

struct Told {
    std::vector<std::int64_t> readable;
    std::vector<std::string> unreadable;
};
Told everything(const Log& log) {
    Told told;
    log.each(
        Log::Which::all,
        [&](const Entry& entry) {
            told.readable.push_back(entry.number);
            return true;
        },
        [&](const Unreadable& entry) {
            told.unreadable.push_back(std::to_string(entry.number) + " " + entry.column);
        });
    return told;
}

TEST_CASE("hostile log: what gallipot did not make is refused, and the file stays as it is") {
    const std::vector<std::string> foreign{
        "CREATE TRIGGER spy AFTER INSERT ON entry BEGIN SELECT 1; END",
        "CREATE TEMP TABLE t (a); CREATE TRIGGER entry_more BEFORE INSERT ON entry BEGIN SELECT "
        "RAISE(IGNORE); END",
        "CREATE VIEW endless AS WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) "
        "SELECT x FROM n",
        "CREATE TABLE more (a)",
        "CREATE INDEX costly ON entry (length(note || note))",
        "ALTER TABLE entry ADD COLUMN worked_out INTEGER AS (length(note)) VIRTUAL",
        "DROP TRIGGER entry_is_kept",
        "DROP INDEX entry_in_time",
        "DROP INDEX entry_in_time; CREATE INDEX entry_in_time ON entry (number, time)",
        "DROP TRIGGER entry_stays; CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT "
        "1; END",
        "CREATE VIRTUAL TABLE words USING fts5(a)",
        "ANALYZE"};
    for (const std::string& statements : foreign) {
        INFO(statements);
        const Folder folder;
        const auto file = doctored(folder, statements);
        const std::string before = tests::slurp(file);
        const std::string told = failure([&] { Log log(file); });
        CHECK(told.find("put a backup in its place") != std::string::npos);
        CHECK(failure([&] { Log log(file, Opening::to_read); }) == told);
        CHECK(tests::slurp(file) == before);
    }
}

TEST_CASE("hostile log: a view in place of the table is refused before it is asked") {
    const Folder folder;
    const auto file = folder / "log";
    REQUIRE(run_sql(file,
                    "CREATE VIEW entry AS WITH RECURSIVE n(number) AS (SELECT 1 UNION ALL SELECT "
                    "number + 1 FROM n) SELECT number FROM n; PRAGMA application_id = 1733324660; "
                    "PRAGMA user_version = 2")
                .empty());
    const auto start = std::chrono::steady_clock::now();
    CHECK(failure([&] { Log log(file); }).find("holds a view 'entry'") != std::string::npos);
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(2));
}

TEST_CASE("hostile log: formats that never were are refused") {
    for (const char* version : {"-1", "0", "-2147483648", "6", "99", "2147483647"}) {
        INFO(version);
        const Folder folder;
        const auto file = doctored(folder, std::string("PRAGMA user_version = ") + version);
        const std::string told = failure([&] { Log log(file); });
        CHECK((told.find("a log format that never was") != std::string::npos ||
               told.find("written by a newer gallipot") != std::string::npos));
    }
}

TEST_CASE("hostile log: entries that correct each other, or themselves, hang nothing") {
    const Folder folder;
    const auto file = doctored(
        folder, despite_triggers("UPDATE entry SET corrects = 2 WHERE number = 1; UPDATE entry SET "
                                 "corrects = 1 WHERE number = 2; UPDATE entry SET corrects = 3 "
                                 "WHERE number = 3"));
    Log log(file);
    const Told told = everything(log);
    CHECK(told.readable == std::vector<std::int64_t>{2});
    CHECK(told.unreadable == std::vector<std::string>{"1 corrects", "3 corrects"});
    CHECK(log.last("K1", 9).size() == 1);
    CHECK(log.active(2)->number == 2);
    CHECK(failure([&] { (void)log.active(1); }).find("entry 1 of the visit log is damaged") !=
          std::string::npos);
    // And it can still be written to.
    CHECK(log.record({seen(8), "", {}, false}, some_time).entry.number == 4);
    CHECK(log.record({seen(9), "", 4, false}, some_time).outcome == Outcome::recorded);
    // What the doctored entry holds taken cannot be corrected: an error, and nothing more.
    CHECK_THROWS(log.record({seen(9), "", 2, false}, some_time));
    CHECK_THROWS(log.record({seen(8), "", 1, false}, some_time));
    CHECK(log.add_all({seen(30)}, some_time) == 1);
}

TEST_CASE("hostile log: a later entry cannot be corrected, whoever writes it") {
    const Folder folder;
    const auto file = doctored(folder, "");
    const std::string insert =
        "INSERT INTO entry (station, time, \"by\", state, did, note, recorded, corrects) VALUES "
        "('K1', '2027-03-18 08:00', '', '', '', 'x', 0, ";
    CHECK(run_sql(file, insert + "4)").find("names an earlier entry") != std::string::npos);
    CHECK(run_sql(file, insert + "2)").empty());
}

TEST_CASE("hostile log: entries that cannot be read are named, and the rest is read") {
    struct Case {
        const char* change;
        const char* column;
    };
    const std::vector<Case> cases{{"time = 'yesterday'", "time"},
                                  {"time = '2027-03-18T08:05'", "time"},
                                  {"time = '2027-02-30 08:05'", "time"},
                                  {"seen = -1", "seen"},
                                  {"seen = 4294967297", "seen"},
                                  {"dead = 1000001", "dead"},
                                  {"level_percent = 101", "level_percent"},
                                  {"state = 'sticky'", "state"},
                                  {"did = 'eaten'", "did"},
                                  {"container = -7", "container"},
                                  {"container = 4294967297", "container"},
                                  {"withdrawn = 2", "withdrawn"},
                                  {"recorded = 9223372036854775807", "recorded"},
                                  {"note = printf('%.5000c', 'x')", "note"},
                                  {"station = printf('%.500c', 'x')", "station"},
                                  {"minutes = 0", "minutes"},
                                  {"feeding = 7", "feeding"}};
    for (const Case& one : cases) {
        INFO(one.change);
        const Folder folder;
        const auto file = doctored(folder, despite_triggers(std::string("UPDATE entry SET ") +
                                                            one.change + " WHERE number = 2"));
        const Log log(file);
        const Told told = everything(log);
        CHECK(told.readable == std::vector<std::int64_t>{1, 3});
        CHECK(told.unreadable == std::vector<std::string>{std::string("2 ") + one.column});
        CHECK(log.last("K1", 9).size() == 2);
        CHECK_FALSE(log.damage());
    }
}

TEST_CASE("hostile log: many unreadable entries of one time are each named once") {
    const Folder folder;
    const auto file = folder / "log";
    {
        Log log(file);
        log.add_all(std::vector<visit::Visit>(1200, seen(1)), some_time);
    }
    REQUIRE(run_sql(file, despite_triggers("UPDATE entry SET time = '2027-03-18T08:05'")).empty());
    CHECK(everything(Log(file)).unreadable.size() == 1200);
}

TEST_CASE("hostile log: a text longer than any of ours is an error, not memory") {
    const Folder folder;
    const auto file = doctored(
        folder, despite_triggers("UPDATE entry SET note = printf('%.3000000c', 'x') WHERE number "
                                 "= 2"));
    const std::string told = failure([&] {
        Log log(file);
        everything(log);
    });
    CHECK(told.find("damaged") != std::string::npos);
}

TEST_CASE("hostile log: no question is answered for ever") {
    const Folder folder;
    const auto file = doctored(folder, "");
    Connection connection(file.string(), Access::write);
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < 2; ++i) {
        SQLite::Statement endless(connection.database,
                                  "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) "
                                  "SELECT max(x) FROM n");
        CHECK_THROWS_AS(endless.executeStep(), SQLite::Exception);
        connection.allow_steps();
    }
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(20));
}

TEST_CASE("hostile log: what drives a terminal is shown as U+FFFD, and exact in JSON") {
    const Folder folder;
    const auto file = doctored(
        folder, despite_triggers("UPDATE entry SET note = 'a' || char(27) || '[2J' || char(8238) "
                                 "|| 'b' || char(10) || 'c', \"by\" = 'd' || char(7) WHERE number "
                                 "= 2"));
    const Log log(file);
    const auto entry = log.find(2);
    REQUIRE(entry);
    CHECK(csv_line(entry->visit)
              .find("d\xEF\xBF\xBD,2,,,,,\"a\xEF\xBF\xBD[2J\xEF\xBF\xBD"
                    "b\nc\"") != std::string::npos);
    CHECK(json_object(entry->visit)
              .find("a\\u001b[2J\u202E"
                    "b\\nc") != std::string::npos);
}

TEST_CASE("log: one written by an earlier gallipot is read, and brought up to date") {
    const Folder folder;
    const auto file = folder / "log";
    std::filesystem::copy_file(
        std::filesystem::path(GALLIPOT_SOURCE_DIR) / "tests/tracking/log/data/format1.sqlite",
        file);
    REQUIRE(run_sql(file, "PRAGMA user_version").find('1') == 0);
    Log log(file);
    CHECK(everything(log).readable == std::vector<std::int64_t>{1, 4, 2, 3, 5});
    const auto first = log.find(1);
    REQUIRE(first);
    CHECK(first->visit.by == "Hall caretaker");
    CHECK(first->visit.note == "beside the bin, \"dusty\"");
    CHECK(first->visit.level_percent == 75);
    CHECK_FALSE(first->visit.minutes);
    CHECK_FALSE(first->visit.feeding);
    CHECK(log.active(1)->number == 4);
    CHECK(log.active(3)->withdrawn);
    visit::Visit more = seen(5);
    more.minutes = 10;
    more.young = 2;
    more.trap_nights = 6;
    more.feeding = false;
    CHECK(log.record({more, "", {}, false}, some_time).entry.number == 6);
    CHECK(Log(file).find(6)->visit == more);
    CHECK(run_sql(file, "PRAGMA user_version").find('5') == 0);
    CHECK_FALSE(log.damage());
}

}  // namespace
}  // namespace gallipot::log
