#include "log/due.hpp"

#include "catch_all.hpp"

#include "plan_for_tests.hpp"

namespace gallipot::log {
namespace {

using tests::at;
using When = Due::When;

visit::Visit visited(LocalTime time) {
    visit::Visit visit;
    visit.station = "K1";
    visit.time = time;
    return visit;
}

/// Placed 2 March 19:30; to be looked at on 2 March 20:30, and 3, 6 and 12 March at 19:30.
plan::Station k1() {
    return tests::two_stations().stations[0];
}

TEST_CASE("due: before the first visit, the first planned one counts") {
    const auto due = next_due(k1(), {}, at(2027, 3, 2, 19, 31));
    CHECK(due.when == When::now);  // of the same day
    CHECK(due.time == at(2027, 3, 2, 20, 30));
    CHECK(next_due(k1(), {}, at(2027, 3, 1, 23, 59)).when == When::later);
    CHECK(next_due(k1(), {}, at(2027, 3, 2, 21, 30)).when == When::now);
    CHECK(next_due(k1(), {}, at(2027, 3, 2, 21, 31)).when == When::overdue);
}

TEST_CASE("due: a visit answers what was planned up to then, and a little early is early enough") {
    const auto now = at(2027, 3, 6, 8, 0);
    // The wait from 3 to 6 March is 72 h, so 18 h early will do: from 01:30 on the 6th.
    CHECK(next_due(k1(), visited(at(2027, 3, 6, 1, 30)), now).time == at(2027, 3, 12, 19, 30));
    CHECK(next_due(k1(), visited(at(2027, 3, 6, 1, 29)), now).time == at(2027, 3, 6, 19, 30));
    // Two were missed: the last one answers both.
    CHECK(next_due(k1(), visited(at(2027, 3, 7, 9, 0)), now).time == at(2027, 3, 12, 19, 30));
}

TEST_CASE(
    "due: from the early bound, or the morning of the day, until a quarter of the wait after") {
    const auto last = visited(at(2027, 3, 6, 19, 30));
    // The wait is 144 h: 36 h before and after 12 March 19:30.
    CHECK(next_due(k1(), last, at(2027, 3, 11, 7, 29)).when == When::later);
    CHECK(next_due(k1(), last, at(2027, 3, 11, 7, 30)).when == When::now);
    CHECK(next_due(k1(), last, at(2027, 3, 14, 7, 30)).when == When::now);
    CHECK(next_due(k1(), last, at(2027, 3, 14, 7, 31)).when == When::overdue);
}

TEST_CASE("due: nothing after the last one, nor once it is taken up") {
    CHECK(next_due(k1(), visited(at(2027, 3, 12, 19, 30)), at(2027, 5, 1, 0, 0)).when ==
          When::nothing_planned);
    auto last = visited(at(2027, 3, 3, 19, 30));
    last.did = {visit::Did::removed};
    CHECK(next_due(k1(), last, at(2027, 5, 1, 0, 0)).when == When::nothing_planned);
    CHECK(next_due(plan::Station(), {}, at(2027, 5, 1, 0, 0)).when == When::nothing_planned);
}

TEST_CASE("due: replacing the bait moves the day to replace it along") {
    const plan::Date april_first = *k1().replace_by;  // 30 days after placing
    CHECK(replace_by(k1(), {}) == april_first);
    auto replaced = visited(at(2027, 3, 12, 7, 0));
    replaced.did = {visit::Did::replaced};
    CHECK(replace_by(k1(), replaced) ==
          plan::Date(std::chrono::year(2027), std::chrono::April, std::chrono::day(11)));
    CHECK(replace_by(k1(), visited(at(2027, 3, 2, 19, 30))) == april_first);
    CHECK_FALSE(replace_by(plan::Station(), replaced));
}

}  // namespace
}  // namespace gallipot::log
