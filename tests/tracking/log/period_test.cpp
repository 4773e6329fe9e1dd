#include "tracking/log/period.hpp"

#include "catch_all.hpp"

#include "plan_for_tests.hpp"

namespace gallipot::log {
namespace {

using tests::at;

plan::Plan placed_in_march_2027() {
    plan::Plan plan = tests::two_stations();
    plan.stations[0].placed = at(2027, 3, 2, 19, 30);
    plan.stations[1].placed = at(2027, 3, 9, 8, 0);
    return plan;
}

TEST_CASE("period: from a year before the first was set out to a year ahead") {
    const Period period(placed_in_march_2027(), at(2027, 4, 1, 12, 0));
    CHECK(period.clock_can_be());
    CHECK(period.fault(at(2027, 3, 1, 8, 0)) == TimeFault::none);
    CHECK(period.fault(at(2026, 3, 18, 8, 0)) == TimeFault::none);
    CHECK(period.fault(at(2026, 3, 1, 8, 0)) == TimeFault::too_early);
    CHECK(period.fault(at(1970, 1, 1, 0, 0)) == TimeFault::too_early);
    CHECK(period.fault(at(2028, 3, 1, 8, 0)) == TimeFault::none);
    CHECK(period.fault(at(2028, 5, 1, 8, 0)) == TimeFault::too_late);
    CHECK_FALSE(period.is_to_come(at(2027, 4, 1, 12, 5)));
    CHECK(period.is_to_come(at(2027, 4, 1, 12, 6)));
}

TEST_CASE("period: a job prepared for later, and one looked after for years") {
    const Period early(placed_in_march_2027(), at(2026, 11, 27, 8, 0));
    CHECK(early.clock_can_be());
    CHECK(early.fault(at(2027, 12, 1, 8, 0)) == TimeFault::none);
    const Period late(placed_in_march_2027(), at(2036, 6, 1, 8, 0));
    CHECK(late.clock_can_be());
    CHECK(late.fault(at(2036, 6, 1, 8, 0)) == TimeFault::none);
}

TEST_CASE("period: a clock that was never set, or went mad, says nothing of what is to come") {
    for (const auto clock : {at(1970, 1, 1, 0, 5), at(2000, 1, 1, 0, 0), at(2099, 1, 1, 0, 0)}) {
        const Period period(placed_in_march_2027(), clock);
        CHECK_FALSE(period.clock_can_be());
        CHECK(period.fault(at(2027, 3, 18, 8, 0)) == TimeFault::none);
        CHECK_FALSE(period.is_to_come(at(2027, 3, 18, 8, 0)));
        CHECK(period.fault(clock) != TimeFault::none);
    }
}

TEST_CASE("period: a day within the year that may be a slip") {
    const plan::Plan plan = placed_in_march_2027();
    const Period period(plan, at(2027, 4, 1, 12, 0));
    const auto doubt = [&](visit::LocalTime time, bool bait = false, const char* at = "K1") {
        visit::Visit visit;
        visit.station = at;
        visit.time = time;
        visit.seen = 4;
        if (bait) visit.level_percent = 75;
        return period.doubt(*plan.station(at), visit).kind;
    };
    // A first count, up to two weeks before; a month written for another.
    CHECK(doubt(at(2027, 3, 2, 19, 20)) == DateDoubt::none);
    CHECK(doubt(at(2027, 2, 16, 19, 30)) == DateDoubt::none);
    CHECK(doubt(at(2027, 2, 16, 19, 29)) == DateDoubt::long_before);
    CHECK(doubt(at(2026, 10, 2, 19, 20)) == DateDoubt::long_before);
    // No bait can be looked at before the day on which there is any.
    CHECK(doubt(at(2027, 3, 1, 19, 20), true) == DateDoubt::bait_before);
    CHECK(doubt(at(2027, 3, 2, 8, 0), true) == DateDoubt::none);
    CHECK(doubt(at(2027, 4, 1, 8, 0), true) == DateDoubt::none);

    visit::Visit visit;
    visit.station = "K1";
    visit.time = at(2026, 10, 2, 19, 20);
    CHECK(explain(period.doubt(plan.stations[0], visit), visit) ==
          "2026-10-02 19:20 is 151 days before K1 was set out, on 2027-03-02");
    visit.time = at(2027, 3, 1, 19, 20);
    visit.did.add(visit::Did::refilled);
    CHECK(
        explain(period.doubt(plan.stations[0], visit), visit) ==
        "2027-03-01 19:20 is 1 day before K1 was set out, on 2027-03-02, and tells of bait there");

    // A control is set out nowhere: the first station's day stands in. Without any there is none.
    plan::Plan with_control = plan;
    with_control.stations[1].placed.reset();
    visit.station = "C1";
    visit.did = {};
    visit.time = at(2026, 10, 2, 19, 20);
    const auto control =
        Period(with_control, at(2027, 4, 1, 12, 0)).doubt(with_control.stations[1], visit);
    CHECK(explain(control, visit) ==
          "2026-10-02 19:20 is 151 days before the first station was set out, on 2027-03-02");
    const plan::Plan undated = tests::two_stations();
    CHECK(Period(undated, at(2027, 4, 1, 12, 0)).doubt(undated.stations[0], visit).kind ==
          DateDoubt::none);
}

TEST_CASE("period: a job that sets nothing out on a day") {
    const Period period(tests::two_stations(), at(2027, 4, 1, 12, 0));
    CHECK(period.clock_can_be());
    CHECK(period.fault(at(2001, 1, 1, 8, 0)) == TimeFault::none);
    CHECK(period.fault(at(1999, 1, 1, 8, 0)) == TimeFault::too_early);
    CHECK(period.fault(at(2028, 6, 1, 8, 0)) == TimeFault::too_late);
    CHECK_FALSE(Period(tests::two_stations(), at(1970, 1, 1, 0, 5)).clock_can_be());
}

}  // namespace
}  // namespace gallipot::log
