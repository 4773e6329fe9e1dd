#include "tracking/log/exchange.hpp"

#include <nlohmann/json.hpp>

#include "catch_all.hpp"

#include "plan_for_tests.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::log {
namespace {

using tests::at;
using visit::Did;
using visit::State;

const Zone& sydney() {
    static const Zone zone = Zone::find("Australia/Sydney").value();
    return zone;
}

diag::SourcePtr file(const std::string& text) {
    return std::make_shared<const diag::Source>(diag::Source{"visits.csv", text});
}

std::vector<visit::Visit> read(const std::string& text, diag::Diagnostics& out) {
    return read_visits(file(text), tests::two_stations(), sydney(), at(2027, 4, 1, 12, 0), out);
}

visit::Visit full_visit() {
    visit::Visit visit;
    visit.station = "K1";
    visit.container = 2;
    visit.time = at(2027, 3, 18, 8, 5);
    visit.by = "Hall caretaker";
    visit.seen = 9;
    visit.dead = 0;
    visit.level_percent = 75;
    visit.state = {State::clogged, State::wet};
    visit.did = {Did::cleared};
    visit.note = "a \"quote\", a comma\nand a line";
    visit.minutes = 10;
    visit.young = 4;
    visit.trap_nights = 12;
    visit.feeding = true;
    return visit;
}

TEST_CASE("exchange: one visit as CSV and as JSON, the columns in the agreed order") {
    CHECK(csv_heading() ==
          "station,time,by,seen,dead,level_percent,state,did,note,minutes,young,trap_nights,"
          "feeding\r\n");
    CHECK(csv_line(full_visit()) ==
          "K1-2,2027-03-18 08:05,Hall caretaker,9,0,75,clogged wet,cleared,"
          "\"a \"\"quote\"\", a comma\nand a line\",10,4,12,yes\r\n");
    CHECK(json_object(full_visit()) ==
          R"({"station":"K1-2","time":"2027-03-18T08:05","by":"Hall caretaker","seen":9,"dead":0,)"
          R"("level_percent":75,"state":["clogged","wet"],"did":["cleared"],)"
          R"("note":"a \"quote\", a comma\nand a line","minutes":10,"young":4,"trap_nights":12,)"
          R"("feeding":true})");
}

TEST_CASE("exchange: what was not looked at is empty, not zero") {
    visit::Visit visit;
    visit.station = "C1";
    visit.time = at(2027, 3, 18, 8, 5);
    visit.seen = 0;
    CHECK(csv_line(visit) == "C1,2027-03-18 08:05,,0,,,,,,,,,\r\n");
    const auto json = nlohmann::json::parse(json_object(visit));
    CHECK(json["seen"] == 0);
    CHECK(json["dead"].is_null());
    CHECK(json["level_percent"].is_null());
    CHECK(json["state"].empty());
}

TEST_CASE("exchange: what is written reads back") {
    visit::Visit formula = full_visit();
    formula.by = "-Someone";
    formula.note = "=HYPERLINK(\"http://example.org\")";
    visit::Visit apostrophe = full_visit();
    apostrophe.note = "'=1+1";
    visit::Visit plain = full_visit();
    plain.note = "'quoted'";
    const std::vector<visit::Visit> visits{full_visit(), formula, apostrophe, plain};
    std::string csv = csv_heading();
    for (const visit::Visit& visit : visits) csv += csv_line(visit);
    CHECK(csv.find("\"=") == std::string::npos);
    CHECK(csv.find(",-Someone") == std::string::npos);
    diag::Diagnostics out;
    CHECK(read(csv, out) == visits);
    INFO(diag::print(out));
    CHECK(out.errors() == 0);
}

TEST_CASE("exchange: what people and spreadsheets write is understood") {
    diag::Diagnostics out;
    const auto visits = read(
        "station,time,by,seen,dead,level_percent,state,did,note\n"
        "k1-2,2027-03-18T08:05:30,,4,,3/4,\"clogged, wet\",,\n"
        "C1,2027-03-17T21:05Z,,0,,,,,\n",
        out);
    INFO(diag::print(out));
    CHECK(out.errors() == 0);
    REQUIRE(visits.size() == 2);
    CHECK(visits[0].station == "K1");
    CHECK(visits[0].container == 2);
    CHECK(visits[0].level_percent == 75);
    CHECK(visits[0].state == visit::Marks<State>{State::clogged, State::wet});
    CHECK(visits[0].time == visits[1].time);
}

TEST_CASE("exchange: every bad field of every line is told at once") {
    diag::Diagnostics out;
    read(
        "station,time,by,seen,dead,level_percent,state,did,note\n"
        "K2,2027-03-18 08:05,,4,,,,,\n"
        "K1,yesterday,,many,-1,halfway,sticky,polished,\"a\abell\"\n"
        "K1,2027-03-18 08:05,,4\n"
        "K1,2027-03-18 08:05,,,,,,,\n",
        out);
    std::vector<std::string> lines;
    for (const auto& found : out.in_order())
        lines.push_back(std::to_string(found.place.line) + ":" +
                        std::to_string(found.place.column) + " " + found.code);
    CHECK(lines == std::vector<std::string>{"2:1 unknown-station", "3:4 bad-time", "3:15 bad-count",
                                            "3:20 bad-count", "3:23 bad-level", "3:31 bad-word",
                                            "3:38 bad-word", "3:47 control-character",
                                            "4:1 csv-columns", "5:1 empty-visit"});
}

TEST_CASE("exchange: a file that is no visit log is told as one") {
    for (const char* text : {"", "\n\n", "station;time;by\n",
                             "time,station,by,seen,dead,level_percent,"
                             "state,did,note\n"}) {
        INFO(text);
        diag::Diagnostics out;
        CHECK(read(text, out).empty());
        REQUIRE(out.errors() == 1);
        CHECK(out.in_order()[0].code == "csv-heading");
        CHECK(out.in_order()[0].hint.english() ==
              "begin the file with station,time,by,seen,dead,level_percent,state,did,note,minutes,"
              "young,trap_nights,feeding");
    }
}

TEST_CASE(
    "exchange: a first count is no slip, one of months before or of bait that was not there is") {
    plan::Plan plan = tests::two_stations();
    plan.stations[0].placed = at(2027, 3, 2, 19, 30);
    const std::string csv =
        "station,time,by,seen,dead,level_percent,state,did,note,minutes,young,trap_nights,feeding\n"
        "K1,2027-03-02 19:20,,26,,,,,,3,,,\n"
        "C1,2027-03-02 19:40,,19,,,,,,3,,,\n"
        "K1,2026-10-02 19:20,,26,,,,,,3,,,\n"
        "K1,2027-03-01 19:20,,9,,75,,,,3,,,\n"
        "K1,2027-12-01 19:20,,9,,,,,,3,,,\n";
    diag::Diagnostics out;
    const auto source = std::make_shared<const diag::Source>(diag::Source{"visits.csv", csv});
    const auto visits =
        read_visits(source, plan, *Zone::find("Australia/Sydney"), at(2027, 4, 1, 12, 0), out);
    REQUIRE(visits.size() == 5);
    CHECK(visits[0].minutes == 3);
    CHECK(out.errors() == 0);
    std::vector<std::string> told;
    for (const auto& found : out.in_order())
        told.push_back(std::to_string(found.place.line) + " " + found.code + " " +
                       found.message.english().substr(0, 10));
    CHECK(told == std::vector<std::string>{"4 before-placing 2026-10-02",
                                           "5 before-placing 2027-03-01",
                                           "6 time-to-come 2027-12-01"});
}

}  // namespace
}  // namespace gallipot::log
