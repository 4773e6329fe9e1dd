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
