#include "tracking/analysis/history.hpp"

#include "catch_all.hpp"

#include "made.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

std::vector<double> seen(const Counts& counts) {
    std::vector<double> result;
    for (const Total& total : counts.totals) result.push_back(total.seen);
    return result;
}

Counts counts(const std::vector<Visit>& visits, std::optional<LocalTime> when = placed) {
    const auto all = histories({site()}, visits);
    return counts_of(all.until(0, on_day(1000)), {when});
}

using Seen = std::vector<double>;

}  // namespace

TEST_CASE("visits are kept by station and in order of time, whatever order they come in",
          "[analysis]") {
    const std::vector<Site> sites{site("K1"), site("K2")};
    const auto all = histories(sites, {Made(4, "K2").saw(3), Made(1, "K2").saw(9), Made(4, "K9"),
                                       Made(5, "K9"), Made(10, "K2").saw(1), Made(2, "K1")});
    const auto history = all.until(1, on_day(9));
    REQUIRE(history.size() == 2);
    CHECK(history[0].seen == 9);
    CHECK(history[1].seen == 3);
    CHECK(all.until(0, on_day(9)).size() == 1);
    CHECK(all.until(1, on_day(0)).empty());
    CHECK(all.until(1, on_day(10)).size() == 3);  // to the end of that day
    CHECK(all.unknown_stations() == std::map<std::string, std::size_t>{{"K9", 2}});
}

TEST_CASE("a count of none is a count, no count is none", "[analysis]") {
    CHECK(seen(counts({Made(0).saw(4), Made(1), Made(4).saw(0)})) == Seen{4, 0});
    CHECK(counts({Made(0), Made(1)}).empty());
}

TEST_CASE("the series starts with the count that the bait starts from", "[analysis]") {
    const auto visits = counted({{-9, 30}, {-5, 33}, {0, 28}, {4, 12}});
    CHECK(seen(counts(visits)) == Seen{28, 12});
    CHECK(counts(visits).baseline);
    CHECK(seen(counts(visits, std::nullopt)) == Seen{30, 33, 28, 12});
    CHECK(seen(counts(counted({{1, 28}, {4, 12}}))) == Seen{28, 12});
}

TEST_CASE("containers counted one by one are summed when all have been counted", "[analysis]") {
    const auto two = counts({Made(0).in(1).saw(5), Made(0).in(2).saw(8), Made(4).in(1).saw(2),
                             Made(4.01).in(2).saw(4), Made(10).in(2).saw(1)});
    CHECK(seen(two) == Seen{13, 6, 3});
    REQUIRE(two.groups.size() == 2);
    CHECK(two.groups[0].size() == 2);
    CHECK(two.groups[1].size() == 3);
    CHECK(two.groups[1][2].day == Approx(10));

    // One container noted by itself once does not upset counts of the whole station.
    CHECK(seen(counts({Made(0).saw(14), Made(4).saw(9), Made(5).in(2).saw(2), Made(10).saw(3)})) ==
          Seen{14, 9, 3});
    // A container that joins later would look like a rise.
    CHECK(seen(counts({Made(0).in(1).saw(9), Made(4).in(1).saw(6), Made(10).in(1).saw(2),
                       Made(10).in(2).saw(40)})) == Seen{9, 6, 2});
}
