#include <nlohmann/json.hpp>

#include "hall.hpp"

namespace gallipot::command {
namespace {

using tests::Hall;
using tests::Ran;

const std::string heading = "station,time,by,seen,dead,level_percent,state,did,note\r\n";

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
              "E1,2026-03-17 20:00,,,2,,,cleared moved,\r\n"
              "K1,2026-03-18 08:05,A,9,,75,wet,,\"first\nsecond line\"\r\n");
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
        hall.write("bad.csv", heading +
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
    CHECK_FALSE(ran.complains("bad.csv:2:"));
    CHECK(ran.complains("nothing was imported"));
    CHECK(ran.out.empty());
    CHECK(Hall::run({"log", hall.job, "--csv"}).out == heading);

    const std::string letter = hall.write("letter.csv", "Dear caretaker,\n\nthe ants are back.\n");
    CHECK(Hall::run({"log", hall.job, "--import", letter}).exit == 1);
    CHECK(Hall::run({"log", hall.job, "--import", hall.folder / "none.csv"}).exit == 2);
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
}  // namespace gallipot::command
