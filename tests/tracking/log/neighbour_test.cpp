#include "tracking/log/neighbour.hpp"

#include "catch_all.hpp"

#include "folder.hpp"
#include "sql.hpp"
#include "tracking/log/log.hpp"
#include "tracking/log/typed_count.hpp"

namespace gallipot::log {
namespace {

using tests::Folder;
using tests::run_sql;

const Instant some_time{std::chrono::seconds(1'805'317'500)};

NeighbourReport spilt(const std::string& station, const std::string& words = "by the door") {
    NeighbourReport report;
    report.station = station;
    report.time = std::chrono::local_days(std::chrono::year(2027) / 3 / 18) + std::chrono::hours(8);
    report.spilt = true;
    report.words = words;
    report.recorded = some_time;
    return report;
}

TEST_CASE("a neighbour's report is there once, for good, beside the entries") {
    const Folder folder;
    const auto file = folder / "log";
    Log log(file);
    const std::string before = log.version();
    CHECK(log.report(spilt("K1"), "a") == ReportOutcome::recorded);
    CHECK(log.report(spilt("K1", "otherwise"), "a") == ReportOutcome::already);
    CHECK(log.report(spilt("K2"), "b") == ReportOutcome::recorded);
    CHECK(log.version() == before);  // nothing that is computed changes
    log.mark_report_read(1, some_time);
    log.mark_report_read(1, some_time);
    log.mark_report_read(99, some_time);
    const auto reports = Log(file, Opening::to_read).reports(10);
    REQUIRE(reports.size() == 2);
    NeighbourReport second = spilt("K2");
    second.number = 2;
    CHECK(reports[0] == second);
    CHECK(reports[1].read);
    CHECK(reports[1].words == "by the door");
    CHECK(log.reports(1).size() == 1);
    for (const char* change :
         {"UPDATE report SET words = 'x'", "DELETE FROM report", "DELETE FROM report_read",
          "UPDATE phone SET id = 'x'", "DELETE FROM phone_ended"}) {
        INFO(change);
        log.add_phone("A", "", some_time);
        log.end_phone("A", some_time);
        CHECK(run_sql(file, change).find("append-only") != std::string::npos);
    }
    // It stands under today's name of the station.
    log.set_old_names({{"K2", "B2"}});
    CHECK(log.reports(1)[0].station == "B2");
}

TEST_CASE("rows of reports that our form would not take are left out") {
    const Folder folder;
    const auto file = folder / "log";
    Log log(file);
    CHECK(log.report(spilt("K1"), "a") == ReportOutcome::recorded);
    run_sql(file,
            "INSERT INTO report (token, station, time, what, words, recorded) VALUES ('b', "
            "'K1', 'never', 'spilt', '', 0), ('c', 'K1', '2027-03-18 08:00', 'spilt', char(7)"
            ", 0), ('d', 'K1', '2027-03-18 08:00', 'eaten', printf('%.*c', 5000, 'x'), 0)");
    CHECK(Log(file).reports(10).size() == 1);
}

TEST_CASE("phones: noted once, and once ended so for good") {
    const Folder folder;
    Log log(folder / "log");
    CHECK_FALSE(log.find_phone("A"));
    log.add_phone("A", "Android", some_time);
    log.add_phone("A", "iPhone", some_time + std::chrono::hours(1));
    log.add_phone("B", "", some_time);
    CHECK(log.find_phone("A") == Phone{"A", "Android", some_time, false});
    log.end_phone("A", some_time);
    log.end_phone("A", some_time);
    CHECK(log.find_phone("A")->ended);
    log.add_phone("A", "", some_time);
    CHECK(log.find_phone("A")->ended);
    CHECK(log.phones(10).size() == 2);
    CHECK(log.phones(10)[0].id == "B");
}

TEST_CASE("several forms at once: each has its outcome, all are recorded together") {
    const Folder folder;
    Log log(folder / "log");
    const auto draft = [](const std::string& station, const std::string& token, int seen) {
        Draft one;
        one.visit.station = station;
        one.visit.time = std::chrono::local_days(std::chrono::year(2027) / 3 / 18);
        one.visit.seen = seen;
        one.token = token;
        return one;
    };
    CHECK(log.record(draft("K1", "a", 1), some_time).entry.number == 1);
    Draft gone = draft("K2", "e", 4);
    gone.corrects = 99;
    const auto done = log.record({draft("K1", "a", 1), draft("K1", "a", 2), draft("K2", "c", 3),
                                  gone, draft("K2", "c", 3), draft("K3", "f", 5)},
                                 some_time);
    REQUIRE(done.size() == 6);
    CHECK(done[0].outcome == Outcome::already);
    CHECK(done[1].outcome == Outcome::form_used);
    CHECK(done[2].outcome == Outcome::recorded);
    CHECK(done[3].outcome == Outcome::nothing_there);
    CHECK(done[4].outcome == Outcome::already);
    CHECK(done[5].outcome == Outcome::recorded);
    CHECK(done[5].entry.number == 3);
    CHECK(log.find_form("f")->visit.seen == 5);
    CHECK_FALSE(log.find_form("g"));
    CHECK(log.record(std::vector<Draft>{}, some_time).empty());
}

TEST_CASE("a count as it is typed") {
    CHECK(parse_typed_count("0")->value == 0);
    CHECK(parse_typed_count(" 12 ")->value == 12);
    CHECK_FALSE(parse_typed_count("12")->approximate);
    CHECK(parse_typed_count("\u0967\u0968")->value == 12);  // Devanagari
    CHECK(parse_typed_count("\u06F1\u06F2")->value == 12);  // Persian
    CHECK(parse_typed_count("~ 12")->approximate);
    CHECK(parse_typed_count("12 +")->approximate);
    CHECK(parse_typed_count("\u224812")->value == 12);
    CHECK(parse_typed_count("1000000")->value == 1'000'000);
    for (const char* wrong : {"", " ", "~", "+", "+1", "1 2", "~1+", "1~", "1000001", "one", "-1",
                              "1.0", "\u2153", "\xFF"}) {
        INFO(wrong);
        CHECK_FALSE(parse_typed_count(wrong));
    }
}

}  // namespace
}  // namespace gallipot::log
