#include "catch_all.hpp"

#include "made.hpp"

// What was counted before anything was set down is the baseline, and never a count from after.

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

std::vector<double> seen(const Counts& counts) {
    std::vector<double> result;
    for (const Total& total : counts.totals) result.push_back(total.seen);
    return result;
}

using Seen = std::vector<double>;

constexpr double hour = 1.0 / 24;

}  // namespace

TEST_CASE("no baseline: the first count there is, and it is not called one", "[analysis]") {
    const auto at = station({site()}, counted({{hour, 28}, {4, 12}}), 4);
    CHECK(seen(at.counts) == Seen{28, 12});
    CHECK_FALSE(at.counts.baseline);
}

TEST_CASE("one baseline count and nothing after is no comparison", "[analysis]") {
    const auto at = station({site()}, counted({{-hour, 28}}), 4);
    CHECK(at.counts.baseline);
    CHECK(at.verdict == Verdict::counted_once);
    CHECK_FALSE(at.has(Flag::never_visited));
    CHECK(at.has(Flag::overdue));  // the visit after an hour and those that followed
}

TEST_CASE("of several baseline counts the last is taken, none as a count from after",
          "[analysis]") {
    // Twice on the day of setting out, and twice before: nothing has changed since.
    const auto before = counted({{-9, 60}, {-5, 55}, {-8 * hour, 40}, {-hour, 28}});
    const auto only = station({site()}, before, 0);
    CHECK(seen(only.counts) == Seen{28});
    CHECK(only.counts.baseline);
    CHECK(only.verdict == Verdict::counted_once);
    CHECK(only.efficacy.formula == Formula::none);
    const auto after = station({site()}, together(before, counted({{4, 14}})), 4);
    CHECK(seen(after.counts) == Seen{28, 14});
    CHECK(*after.trend.change_percent == Approx(-50));
    CHECK(after.trend.decline.counts == 2);
    // A count at the minute of placing is from before.
    CHECK(station({site()}, counted({{0, 28}, {4, 12}}), 4).counts.baseline);
}

TEST_CASE("the job as a whole knows baselines too", "[analysis]") {
    const std::vector<Site> sites{site("K1"), site("K2")};
    const auto before = together(counted({{-8 * hour, 40}, {-hour, 28}}, "K1"),
                                 counted({{-8 * hour, 9}, {-hour, 12}}, "K2"));
    const Report only = report_on(sites, before, 0);
    CHECK(only.pests[0].verdict == Verdict::counted_once);
    CHECK(only.pests[0].trend.first.seen == 40);
    // One that was not looked at again has not lost its pests.
    const Report half = report_on(sites, together(before, counted({{4, 0}}, "K1")), 4);
    CHECK(half.pests[0].verdict != Verdict::gone);
}

TEST_CASE("a day without an hour: what was counted first on it was before", "[analysis]") {
    Site by_day = site();
    by_day.placed = day_0 + std::chrono::hours(12);
    by_day.placed_by_day = true;
    const auto evening = station({by_day}, counted({{-hour, 28}, {hour, 31}, {4, 12}}), 4);
    CHECK(evening.counts.baseline);
    CHECK(seen(evening.counts) == Seen{28, 31, 12});
    // The day before was the baseline; the evening is the first look at the bait.
    const auto eve = station({by_day}, counted({{-1, 26}, {hour, 31}, {4, 12}}), 4);
    CHECK(seen(eve.counts) == Seen{26, 31, 12});
    // With an hour, a count after it is from after.
    CHECK_FALSE(station({site()}, counted({{hour, 28}, {4, 12}}), 4).counts.baseline);
}

TEST_CASE("a baseline of containers is one round, apart from the first look", "[analysis]") {
    Site two = site();
    two.containers = 2;
    const std::vector<Visit> visits{Made(-8 * hour).in(1).saw(50), Made(-hour).in(1).saw(5),
                                    Made(-hour / 2).in(2).saw(8),  Made(hour).in(1).saw(6),
                                    Made(2 * hour).in(2).saw(9),   Made(4).in(1).saw(2),
                                    Made(4.01).in(2).saw(4)};
    const auto at = station({two}, visits, 4);
    CHECK(seen(at.counts).front() == 13);
    CHECK(at.counts.baseline);
    CHECK(seen(at.counts).back() == 6);
    CHECK(*at.trend.change_percent == Approx(100.0 * (6 - 13) / 13));

    // Before anything stands there the station is counted as a whole, later cup by cup.
    const std::vector<Visit> whole{Made(-hour).saw(20), Made(4).in(1).saw(6), Made(4).in(2).saw(4),
                                   Made(10).in(1).saw(1), Made(10).in(2).saw(2)};
    const auto later = station({two}, whole, 10);
    CHECK(seen(later.counts) == Seen{20, 10, 3});
    CHECK(later.counts.baseline);
    REQUIRE(later.counts.groups.size() == 1);
    CHECK(later.trend.decline.counts == 3);
    CHECK(later.counts.not_alike == 0);
}

TEST_CASE("a control's counts from before and after placing do not stand for one another",
          "[analysis]") {
    const std::vector<Site> sites{site(), control()};
    const auto treated = counted({{0, 30}, {2, 6}});
    const auto with = [&](const std::vector<std::pair<double, int>>& controls) {
        return station(sites, together(treated, counted(controls, "C1")), 3).efficacy;
    };
    // None, one and several before; the last one is compared. One an hour after the neighbour was
    // set down, on the same round, is from before: nothing is set down at a control.
    CHECK(with({}).why_none == NoControl::not_counted);
    CHECK(*with({{hour, 20}, {2, 20}}).percent == Approx(80));
    CHECK(*with({{-3, 90}, {-1, 50}, {-hour, 20}, {2, 20}}).percent == Approx(80));
    // Only before: nothing to compare with.
    CHECK(with({{-2, 50}, {-1, 20}}).formula == Formula::none);
    CHECK(with({{-1, 20}, {hour, 25}}).formula == Formula::none);
    // The last before, though one from after is as near: that one is a count on the way.
    CHECK(*with({{-1, 20}, {1, 90}, {2, 20}}).percent == Approx(84.2482).margin(1e-3));
    // Only after: from soon after placing on. One count carries no figure.
    CHECK(*with({{1, 20}, {2, 20}}).percent == Approx(80));
    CHECK(with({{2, 12}}).why_none == NoControl::too_few);
    const auto all = [&](const std::vector<std::pair<double, int>>& controls) {
        return report_on(sites, together(treated, counted(controls, "C1")), 3).pests[0].efficacy;
    };
    CHECK(*all({{-9, 99}, {-hour, 20}, {2, 20}}).percent == Approx(80));
    CHECK(all({{-9, 99}, {-hour, 20}}).formula == Formula::none);
}

TEST_CASE("a baseline alone is not what Abbott takes for a count from after", "[analysis]") {
    const std::vector<Site> sites{site(), control()};
    const auto visits = together(counted({{-hour, 6}}), counted({{1, 26}}, "C1"));
    CHECK(station(sites, visits, 3).efficacy.formula == Formula::none);
}
