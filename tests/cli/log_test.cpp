#include "tracking/log/log.hpp"

#include <fstream>
#include <nlohmann/json.hpp>

#include "hall.hpp"

namespace gallipot::cli {
namespace {

using tests::Hall;
using tests::Ran;

const std::string heading =
    "station,time,by,seen,dead,level_percent,state,did,note,minutes,young,trap_nights,feeding\r\n";
/// As it was written before there were the last four columns.
const std::string old_heading = "station,time,by,seen,dead,level_percent,state,did,note\r\n";

TEST_CASE("log: nothing yet is said, and is still a table for programs") {
    const Hall hall;
    CHECK(Hall::run({"log", hall.job}).exit == 0);
    CHECK(Hall::run({"log", hall.job}).complains("no visit is recorded yet"));
    CHECK(Hall::run({"log", hall.job, "--csv"}).out == heading);
    CHECK(nlohmann::json::parse(Hall::run({"log", hall.job, "--json"}).out).at("visits").empty());
    CHECK(Hall::run({"log", hall.folder / "none.yaml"}).exit == 2);
    // Looking makes no file.
    CHECK_FALSE(std::filesystem::exists(hall.folder / "hall.visits.sqlite"));
}

TEST_CASE("log: what neighbours reported stands beside the visits") {
    const Hall hall;
    REQUIRE(hall.visit("K1", {"--seen", "9"}).exit == 0);
    CHECK(Hall::run({"log", hall.job, "--reports"}).says("No neighbour has reported anything."));
    {
        log::Log visits(hall.folder / "hall.visits.sqlite");
        log::NeighbourReport report;
        report.station = "K2";
        report.time =
            std::chrono::local_days(std::chrono::year(2026) / 3 / 18) + std::chrono::hours(8);
        report.spilt = report.pests = true;
        report.words = "by the door\nof the \x1b[31mkitchen";
        CHECK(visits.report(report, "bad") == log::ReportOutcome::recorded);  // left out when read
        report.words = "by the door\nof the kitchen";
        CHECK(visits.report(report, "a") == log::ReportOutcome::recorded);
    }
    const Ran table = Hall::run({"log", hall.job, "--reports"});
    CHECK(table.exit == 0);
    CHECK(table.says("K2"));
    CHECK(table.says("by the door of the kitchen"));
    CHECK_FALSE(table.says("\x1b"));
    const auto json =
        nlohmann::json::parse(Hall::run({"log", hall.job, "--reports", "--json"}).out);
    REQUIRE(json.at("reports").size() == 1);
    CHECK(json["reports"][0] == nlohmann::json{{"station", "K2"},
                                               {"time", "2026-03-18T08:00"},
                                               {"what", {"spilt", "pests"}},
                                               {"words", "by the door\nof the kitchen"},
                                               {"read", false}});
    // No visit comes of it.
    CHECK(nlohmann::json::parse(Hall::run({"log", hall.job, "--json"}).out).at("visits").size() ==
          1);
    CHECK(Hall::run({"log", hall.job, "--reports", "--csv"}).exit == 2);
}

TEST_CASE("log: as a table, as JSON, as CSV, in order of time") {
    const Hall hall;
    REQUIRE(hall.visit("K1", {"--seen", "9", "--level", "75", "--state", "wet", "--note",
                              "first\nsecond line", "--by", "A"})
                .exit == 0);
    REQUIRE(Hall::run({"visit", hall.job, "E1", "--dead", "2", "--did", "cleared,moved", "--at",
                       "2026-03-17 20:00"})
                .exit == 0);
    const Ran table = Hall::run({"log", hall.job});
    CHECK(table.exit == 0);
    CHECK(table.out.find("E1") < table.out.find("K1"));
    CHECK(table.says("75\u00a0%"));
    CHECK(table.says("first second line"));

    const auto json = nlohmann::json::parse(Hall::run({"log", hall.job, "--json"}).out);
    REQUIRE(json.at("visits").size() == 2);
    const auto& first = json["visits"][0];
    CHECK(first.at("station") == "E1");
    CHECK(first.at("time") == "2026-03-17T20:00");
    CHECK(first.at("seen").is_null());
    CHECK(first.at("dead") == 2);
    CHECK(first.at("did") == nlohmann::json{"cleared", "moved"});
    CHECK(json["visits"][1].at("note") == "first\nsecond line");
    CHECK(json["visits"][1].at("level_percent") == 75);
    CHECK(json["visits"][1].at("state") == nlohmann::json::array({"wet"}));

    CHECK(Hall::run({"log", hall.job, "--csv"}).out ==
          heading +
              "E1,2026-03-17 20:00,,,2,,,cleared moved,,,,,\r\n"
              "K1,2026-03-18 08:05,A,9,,75,wet,,\"first\nsecond line\",,,,\r\n");
    CHECK(Hall::run({"log", hall.job, "--csv", "--json"}).exit == 2);
}

TEST_CASE("log: what --csv writes, --import reads, and the second time adds nothing") {
    const Hall hall;
    REQUIRE(hall.visit("K1", {"--seen", "9", "--note", "=1+1, \"quoted\"\nÜber 50 %"}).exit == 0);
    REQUIRE(hall.visit("K1", {"--seen", "9"}).exit == 0);
    const std::string csv = Hall::run({"log", hall.job, "--csv"}).out;
    const std::string file = hall.write("visits.csv", csv);
    CHECK(Hall::run({"log", hall.job, "--import", file}).out ==
          "Added 0 visits; 2 were there already.\n");

    const Hall other;
    CHECK(Hall::run({"log", other.job, "--import", file}).out == "Added 2 visits.\n");
    CHECK(Hall::run({"log", other.job, "--import", file}).says("Added 0 visits"));
    CHECK(Hall::run({"log", other.job, "--csv"}).out == csv);
}

TEST_CASE("log: an import with bad rows reports every one with its line, and none go in") {
    const Hall hall;
    const std::string file =
        hall.write("bad.csv", old_heading +
                                  "K1,2026-03-18 08:05,A,9,,75,wet,,fine\r\n"
                                  "K9,2026-03-18 08:05,A,9,,,,,\r\n"
                                  "K1,2026-02-30 08:05,A,9,,,,,\r\n"
                                  "K1,2026-03-18 08:05,A,nine,,,,,\r\n"
                                  "K1,2026-03-18 08:05,A,,,101,sticky,eaten,\r\n"
                                  "K1,2026-03-18 08:05\r\n"
                                  "K1,2026-03-18 08:05,A,,,,,,\r\n");
    const Ran ran = Hall::run({"log", hall.job, "--import", file});
    CHECK(ran.exit == 1);
    for (int line = 3; line <= 8; ++line)
        CHECK(ran.complains("bad.csv:" + std::to_string(line) + ":"));
    CHECK_FALSE(ran.complains("bad.csv:2:4: error"));
    CHECK(ran.complains("nothing was imported"));
    CHECK(ran.out.empty());
    CHECK(Hall::run({"log", hall.job, "--csv"}).out == heading);

    const std::string letter = hall.write("letter.csv", "Dear caretaker,\n\nthe ants are back.\n");
    CHECK(Hall::run({"log", hall.job, "--import", letter}).exit == 1);
    CHECK(Hall::run({"log", hall.job, "--import", hall.folder / "none.csv"}).exit == 2);
}

TEST_CASE("log: an import refuses times that cannot be, and warns of those that may be slips") {
    const Hall hall;  // K1 was set out on 2 March 2027 at 19:30
    const auto add = [&](const std::string& lines) {
        return Hall::run({"log", hall.job, "--import", hall.write("v.csv", old_heading + lines)});
    };
    for (const char* time : {"1970-01-01 00:05", "2017-03-20 08:00", "2099-03-20 08:00"}) {
        INFO(time);
        const Ran ran =
            add("K1,2027-03-18 08:05,A,9,,,,,\r\nK1," + std::string(time) + ",A,120,,,,,\r\n");
        CHECK(ran.exit == 1);
        CHECK(ran.complains("v.csv:3:4: error"));
        CHECK(ran.complains("[impossible-time]"));
    }
    CHECK(Hall::run({"log", hall.job, "--csv"}).out == heading);
    const Ran ran =
        add("K1,2027-03-01 08:00,A,20,,,,,\r\n"
            "K1,2027-03-02 19:00,A,20,,,,,\r\n"
            "K1,2027-03-18 08:05,A,9,,,,,\r\n"
            "K1-1,2027-03-18 08:05,A,4,,,,,\r\n"
            "K1,2027-03-18 08:05,B,8,,,,,\r\n"
            "K1,2027-03-18 08:05,B,,,75,,,\r\n");
    CHECK(ran.exit == 0);
    CHECK(ran.complains("v.csv:2:4: warning: K1 was set out later, on 2027-03-02"));
    CHECK_FALSE(ran.complains("v.csv:3:4: warning: K1 was set out later"));
    CHECK(ran.complains("v.csv:6:1: warning: K1 was counted in the same minute in line 4"));
    CHECK_FALSE(ran.complains("v.csv:5:1: warning"));
    CHECK_FALSE(ran.complains("v.csv:7:1: warning"));
}

TEST_CASE("log: an entry that cannot be read is named, and the rest shown") {
    const Hall hall;
    for (const char* count : {"1", "2", "3"})
        REQUIRE(hall.visit("K1", {"--seen", count}).exit == 0);
    const std::string file = hall.folder / "hall.visits.sqlite";
    REQUIRE(
        ::system(("sqlite3 '" + file +
                  "' \"DROP TRIGGER entry_stays; UPDATE entry SET time = 'soon', note = char(27) "
                  "|| '[2J' WHERE number = 2; UPDATE entry SET note = 'a' || char(27) || "
                  "char(8238) || '[2J' WHERE number = 3; CREATE TRIGGER entry_stays BEFORE "
                  "UPDATE ON entry\n  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); "
                  "END;\"")
                     .c_str()) == 0);
    for (const char* how : {"--csv", "--json", "--all"}) {
        INFO(how);
        const Ran ran = Hall::run({"log", hall.job, how});
        CHECK(ran.exit == 0);
        CHECK(ran.complains("entry 2 of the visit log cannot be read (time); it is left out"));
        CHECK_FALSE(ran.says("soon"));
        CHECK_FALSE(ran.says("\x1b"));
        CHECK(ran.says("\xE2\x80\xAE") == (std::string(how) == "--json"));
    }
    CHECK(Hall::run({"report", hall.job}).complains("entry 2 of the visit log cannot be read"));
    CHECK(hall.visit("K1", {"--seen", "4"}).exit == 0);
    CHECK(hall.visit("K1", {"--seen", "4", "--corrects", "2"}).exit == 3);
}

TEST_CASE("log: into a damaged file nothing is recorded; what it still gives is shown") {
    const Hall hall;
    for (int i = 0; i < 20; ++i) REQUIRE(hall.visit("K1", {"--seen", std::to_string(i)}).exit == 0);
    const std::string file = hall.folder / "hall.visits.sqlite";
    {
        std::fstream bytes(file, std::ios::in | std::ios::out | std::ios::binary);
        bytes.seekp(4096 + 3000);
        bytes << std::string(900, '\x5A');
    }
    const std::string broken = system::read_file(file);
    CHECK(hall.visit("K1", {"--seen", "4"}).exit == 3);
    CHECK(hall.visit("K1", {"--seen", "4"}).complains("is damaged"));
    const std::string csv = hall.write("v.csv", heading + "K1,2027-03-18 08:05,,9,,,,,,,,,\r\n");
    CHECK(Hall::run({"log", hall.job, "--import", csv}).exit == 3);
    CHECK(Hall::run({"report", hall.job}).exit == 3);
    const Ran shown = Hall::run({"log", hall.job, "--csv"});
    CHECK(shown.exit == 3);
    CHECK(shown.complains("is damaged"));
    CHECK(Hall::run({"log", hall.job, "--backup", hall.folder / "copy"}).exit == 3);
    CHECK(system::read_file(file) == broken);
}

TEST_CASE("a recipe that was noted by a slip is set right from the start", "[command][log]") {
    Hall hall;
    CHECK(hall.run({"log", hall.job, "--recipe-was-wrong", "syrup"}).exit == 1);
    REQUIRE(hall.visit("K1", {"--seen", "4"}).exit == 0);
    CHECK(hall.run({"log", hall.job, "--recipe-was-wrong", "sirup"}).complains("syrup"));
    const Ran ran = hall.run({"log", hall.job, "--recipe-was-wrong", "syrup"});
    CHECK(ran.exit == 0);
    CHECK(ran.says("syrup"));
}

TEST_CASE("log: a backup is a whole log of its own, and the log itself is never its target") {
    const Hall hall;
    REQUIRE(hall.visit("K1", {"--seen", "9"}).exit == 0);
    const std::string copy = hall.folder / "copy.visits.sqlite";
    CHECK(Hall::run({"log", hall.job, "--backup", copy}).exit == 0);
    std::filesystem::copy_file(hall.job, hall.folder / "copy.yaml");
    CHECK(Hall::run({"log", hall.folder / "copy.yaml", "--csv"}).out ==
          Hall::run({"log", hall.job, "--csv"}).out);
    CHECK(Hall::run({"log", hall.job, "--backup", hall.folder / "hall.visits.sqlite"})
              .complains("it is the visit log"));
    CHECK(Hall::run({"log", hall.job, "--backup", hall.folder / "none/x"}).exit == 2);
    // Nothing half made is left.
    for (const auto& file : std::filesystem::directory_iterator(hall.folder / ""))
        CHECK(file.path().filename().string().find(".copy") == std::string::npos);
    const Hall empty;
    CHECK(Hall::run({"log", empty.job, "--backup", copy}).exit == 1);
}

}  // namespace
}  // namespace gallipot::cli
