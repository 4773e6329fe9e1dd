// What was logged under an older name of a station is the station's.
#include "catch_all.hpp"

#include "folder.hpp"
#include "plan_for_tests.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"
#include "tracking/log/log.hpp"

namespace gallipot::log {
namespace {

using tests::at;

const Instant some_time{std::chrono::seconds(1'805'000'000)};

visit::Visit seen(const std::string& station, int count, unsigned day) {
    visit::Visit visit;
    visit.station = station;
    visit.time = at(2027, 3, day, 8, 5);
    visit.seen = count;
    return visit;
}

/// K1 was called B7; two entries are from then, one is newer.
struct Renamed {
    tests::Folder folder;
    Log log{folder / "hall.visits.sqlite"};

    Renamed() {
        log.record({seen("B7", 30, 1), "", {}}, some_time);
        visit::Visit filled = seen("B7", 12, 8);
        filled.did.add(visit::Did::replaced);
        log.record({filled, "", {}}, some_time);
        log.record({seen("K1", 4, 15), "", {}}, some_time);
        log.record({seen("B7X", 99, 16), "", {}}, some_time);
        log.set_old_names({{"b7", "K1"}});  // letter case makes no difference
    }
};

TEST_CASE("old names: the last visits, the first count and the last filling are the station's") {
    const Renamed it;
    const auto last = it.log.last("K1", 10);
    REQUIRE(last.size() == 3);
    CHECK(last[0].visit.seen == 4);
    CHECK(last[2].visit.seen == 30);
    CHECK(last[2].visit.station == "K1");
    CHECK(it.log.last("K1", 2).size() == 2);
    CHECK(it.log.first_count("K1")->visit.seen == 30);
    CHECK(it.log.first_count("K1", at(2027, 3, 10, 0, 0))->visit.seen == 12);
    CHECK(it.log.last_replaced("K1")->visit.seen == 12);
}

TEST_CASE("old names: every entry that is read has the name of today, and another's stays") {
    const Renamed it;
    std::vector<std::string> stations;
    it.log.each(
        Log::Which::all,
        [&](const Entry& entry) {
            stations.push_back(entry.visit.station);
            return true;
        },
        [](const Unreadable&) { FAIL("unreadable"); });
    CHECK(stations == std::vector<std::string>{"K1", "K1", "K1", "B7X"});
    CHECK(it.log.find(1)->visit.station == "K1");
    CHECK(it.log.active(1)->visit.station == "K1");
}

TEST_CASE(
    "old names: an entry under one is corrected as the station's, and a form sent twice is one") {
    Renamed it;
    Draft draft{seen("K1", 31, 1), "form", 1};
    CHECK(it.log.record(draft, some_time).outcome == Outcome::recorded);
    CHECK(it.log.record(draft, some_time).outcome == Outcome::already);
    CHECK(it.log.active(1)->visit.seen == 31);
    draft.token = "another";
    CHECK(it.log.record(draft, some_time).outcome == Outcome::corrected_since);
}

TEST_CASE("old names: a file from before the renaming adds nothing again") {
    Renamed it;
    plan::Plan plan = tests::two_stations();
    plan.stations[0].was = {"B7"};
    diag::Diagnostics out;
    const auto visits = read_visits(
        std::make_shared<const diag::Source>(diag::Source{
            "visits.csv", csv_heading() + csv_line(seen("B7", 30, 1)) +
                              csv_line(seen("K1", 30, 1)) + csv_line(seen("B7", 2, 20))}),
        plan, *Zone::find("UTC"), at(2027, 4, 1, 12, 0), out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    REQUIRE(visits.size() == 3);
    CHECK(visits[2].station == "K1");
    // The first is there, its twin under the new name and the last are new.
    CHECK(it.log.add_all(visits, some_time) == 2);
    CHECK(it.log.add_all(visits, some_time) == 0);
}

TEST_CASE(
    "old names: targets by an older name, of what was taken up, and of containers no more there") {
    plan::Plan plan = tests::two_stations();
    plan.stations[0].was = {"B7"};
    plan.stations[0].most_containers = 3;
    plan::Station gone;
    gone.id = "N1";
    gone.containers = gone.most_containers = 2;
    gone.was = {"N0"};
    plan.retired = {gone};
    CHECK(find_target(plan, "b7") == Target{"K1", 0, "B7"});
    CHECK(find_target(plan, "B7-2") == Target{"K1", 2, "B7"});
    CHECK(find_target(plan, "K1-3") == Target{"K1", 3});
    CHECK_FALSE(find_target(plan, "K1-4"));
    CHECK(find_target(plan, "N1-2") == Target{"N1", 2});
    CHECK(find_target(plan, "N0") == Target{"N1", 0, "N0"});
}

TEST_CASE("old names: a visit after the end is read, with a warning") {
    plan::Plan plan = tests::two_stations();
    plan.stations[0].until = plan::Date{std::chrono::year{2027} / 3 / 10};
    const auto warnings = [&](unsigned day) {
        diag::Diagnostics out;
        const auto visits =
            read_visits(std::make_shared<const diag::Source>(diag::Source{
                            "visits.csv", csv_heading() + csv_line(seen("K1", 30, day))}),
                        plan, *Zone::find("UTC"), at(2027, 4, 1, 12, 0), out);
        CHECK(visits.size() == 1);
        std::string codes;
        for (const auto& each : out.in_order()) codes += each.code;
        return codes;
    };
    CHECK(warnings(10).empty());
    CHECK(warnings(11) == "after-until");
}

}  // namespace
}  // namespace gallipot::log
