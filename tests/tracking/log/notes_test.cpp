#include "catch_all.hpp"

#include "folder.hpp"
#include "plan_for_tests.hpp"
#include "sql.hpp"
#include "tracking/log/log.hpp"

// What the log keeps beside the visits: see Fact.

namespace gallipot::log {
namespace {

using tests::at;
using tests::Folder;
using tests::run_sql;

const Instant some_time{std::chrono::seconds(1'805'500'000)};  // 2027-03-20

Draft on(int day, const std::string& station = "K1") {
    Draft draft;
    draft.visit.station = station;
    draft.visit.time = at(2027, 3, static_cast<unsigned>(day), 10, 0);
    draft.visit.seen = 3;
    return draft;
}

Fact fact(const std::string& content, const std::string& mix = "syrup") {
    return {Fact::Kind::mix, mix, content};
}

TEST_CASE("a fact is noted with the first entry, and then where it is another", "[log]") {
    const Folder folder;
    Log log(folder / "log");
    CHECK(log.notes().empty());
    log.record(on(2), some_time, {fact("A")});
    log.record(on(3), some_time, {fact("A")});
    log.record(on(4), some_time, {fact("B"), fact("X", "paste")});
    log.record(on(5), some_time, {fact("B"), fact("X", "paste")});
    log.record(on(6), some_time, {fact("A")});
    const auto notes = log.notes();
    REQUIRE(notes.size() == 4);
    CHECK(notes[0].fact == fact("A"));
    CHECK_FALSE(notes[0].since);
    CHECK(notes[1].fact == fact("B"));
    CHECK(notes[1].since == at(2027, 3, 4, 10, 0));
    CHECK(notes[1].after_entry == 2);
    CHECK_FALSE(notes[2].since);  // a mix that was not known held from the start
    CHECK(notes[3].fact == fact("A"));
    CHECK(notes[3].since == at(2027, 3, 6, 10, 0));
    CHECK(Log(folder / "log", Opening::to_read).notes().size() == 4);
}

TEST_CASE("what is recorded late does not date a fact back", "[log]") {
    const Folder folder;
    Log log(folder / "log");
    log.record(on(10), some_time, {fact("A")});
    log.record(on(5), some_time, {fact("B")});
    CHECK(log.notes().at(1).since == at(2027, 3, 10, 10, 0));
    // A slip of a year ahead of every clock does not put it off.
    Draft slip = on(10);
    slip.visit.time = at(2028, 3, 10, 10, 0);
    log.record(slip, some_time, {fact("B")});
    log.record(on(12), some_time, {fact("C")});
    CHECK(log.notes().at(2).since == at(2027, 3, 12, 10, 0));
}

TEST_CASE("an import notes the facts of its job once", "[log]") {
    const Folder folder;
    Log log(folder / "log");
    CHECK(log.add_all({on(2).visit, on(3).visit}, some_time, {fact("A")}) == 2);
    CHECK(log.notes().size() == 1);
    CHECK(log.add_all({on(2).visit}, some_time, {fact("B")}) == 0);
    CHECK(log.notes().size() == 1);  // nothing was added
}

TEST_CASE("a slip in what was noted is itself noted", "[log]") {
    const Folder folder;
    Log log(folder / "log");
    log.record(on(2), some_time, {fact("A")});
    log.note_from_start({fact("B")}, some_time);
    REQUIRE(log.notes().size() == 2);
    CHECK_FALSE(log.notes()[1].since);
    log.record(on(3), some_time, {fact("B")});
    CHECK(log.notes().size() == 2);
}

TEST_CASE("every entry and every note is another version of the log", "[log]") {
    const Folder folder;
    Log log(folder / "log");
    const std::string empty = log.version();
    log.record(on(2), some_time, {fact("A")});
    const std::string one = log.version();
    CHECK(one != empty);
    CHECK(log.version() == one);
    log.note_from_start({fact("B")}, some_time);
    const std::string noted = log.version();
    CHECK(noted != one);
    log.record(on(3), some_time);
    CHECK(log.version() != noted);
}

TEST_CASE("notes are never altered, and one that cannot be read is left out", "[log]") {
    const Folder folder;
    const auto file = folder / "log";
    Log(file).record(on(2), some_time, {fact("A")});
    CHECK(run_sql(file, "UPDATE note SET content = 'B'").find("append-only") != std::string::npos);
    CHECK(run_sql(file, "DELETE FROM note").find("append-only") != std::string::npos);
    run_sql(file,
            "INSERT INTO note (kind, name, content, since, after_entry, recorded) VALUES "
            "('spell', 'a', 'b', '', 0, 0), ('mix', 'a', 'b', 'never', 0, 0)");
    CHECK(Log(file).notes().size() == 1);
}

TEST_CASE("a log of format 2 is kept as it is, and knows no recipe yet", "[log]") {
    const Folder folder;
    const auto file = folder / "log";
    std::filesystem::copy_file(
        std::filesystem::path(GALLIPOT_SOURCE_DIR) / "tests/tracking/log/data/format2.sqlite",
        file);
    REQUIRE(run_sql(file, "PRAGMA user_version").find('2') == 0);
    Log log(file);
    std::vector<std::string> stations;
    log.each(
        Log::Which::active,
        [&](const Entry& entry) {
            stations.push_back(entry.visit.station + "-" + std::to_string(entry.visit.container));
            return true;
        },
        [](const Unreadable&) { FAIL("an entry cannot be read"); });
    CHECK(stations == std::vector<std::string>{"K1-0", "K1-1", "K1-2", "K2-0"});
    CHECK(log.find(3)->visit.note == "not there");
    CHECK(log.notes().empty());
    // What is noted with the first entry after held from the start.
    log.record(on(12), some_time, {fact("A")});
    CHECK_FALSE(log.notes().at(0).since);
}

}  // namespace
}  // namespace gallipot::log
