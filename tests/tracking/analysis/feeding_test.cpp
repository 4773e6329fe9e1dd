#include "tracking/analysis/feeding.hpp"

#include "catch_all.hpp"

#include "made.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

Feeding feeding(const std::vector<Visit>& visits, int containers = 1,
                std::optional<LocalTime> when = placed) {
    Site s = site();
    s.containers = containers;
    s.placed = when;
    const auto all = histories({s}, visits);
    return feeding_of(s, all.until(0, on_day(1000)));
}

Approx near(double value) {
    return Approx(value).margin(1e-9);
}

}  // namespace

TEST_CASE("an even fall of the level runs on to the day it is empty", "[analysis]") {
    // By arithmetic: 4 % a day from 100 % is empty 25 days after placing.
    const auto result = feeding({Made(5).level(80), Made(10).level(60), Made(15).level(40)});
    const Level* level = result.first_empty();
    REQUIRE(level);
    CHECK(*level->percent_per_day == near(4));
    CHECK(*level->left_percent == 40);
    CHECK(level->empty->at == day(25));
    // The readings lie on the line, but a level is only read to 5 %: 1.96 x 5 / sqrt(25+100+225).
    const double reach = 1.959963985 * 5 / std::sqrt(350);
    CHECK(level->rate->low == Approx(4 - reach));
    CHECK(level->rate->high == Approx(4 + reach));
    CHECK(days_between(placed, level->empty->low) == Approx(15 + 40 / (4 + reach)).margin(1e-3));
    CHECK(days_between(placed, *level->empty->high) == Approx(15 + 40 / (4 - reach)).margin(1e-3));
}

TEST_CASE("a level that hardly moves has no latest day", "[analysis]") {
    const auto result = feeding({Made(1).level(98)});
    REQUIRE(result.first_empty());
    CHECK_FALSE(result.first_empty()->empty->high);
    CHECK_FALSE(feeding({Made(4).level(100)}).first_empty());
    CHECK_FALSE(feeding({}).first_empty());
    CHECK_FALSE(feeding({Made(0).level(100)}).first_empty());
    // Already empty: nothing to foresee.
    CHECK_FALSE(feeding({Made(9).level(0)}).first_empty());
}

TEST_CASE("scatter beyond the reading error widens the interval", "[analysis]") {
    const auto even = feeding({Made(5).level(80), Made(10).level(60), Made(15).level(40)});
    const auto uneven =
        feeding({Made(5).level(50), Made(10).level(75).do_it(Did::cleared), Made(15).level(42)});
    // 50 to 75 with nothing filled is a filling nobody noted: a new stretch starts there.
    REQUIRE(uneven.first_empty());
    const auto width = [](const Feeding& f) {
        const Level* level = f.first_empty();
        return level->rate->high - level->rate->low;
    };
    CHECK(width(uneven) > width(even));
}

TEST_CASE("a filling starts the level anew, and the rate before it still counts", "[analysis]") {
    const auto result = feeding({Made(5).level(80), Made(10).level(60).do_it(Did::refilled)});
    const Level* level = result.first_empty();
    REQUIRE(level);
    CHECK(*level->left_percent == 100);
    CHECK(level->empty->at == day(35));  // 4 % a day from full on day 10
    const auto slower = feeding({Made(5).level(50).do_it(Did::replaced), Made(25).level(80)});
    // 10 % a day for 5 days, then 1 % a day for 20: (5 x 50 + 20 x 20) / (25 + 400) = 1.53.
    CHECK(*slower.first_empty()->percent_per_day == Approx(650.0 / 425));
}

TEST_CASE("what rain or a spill did is no feeding", "[analysis]") {
    const auto spilt =
        feeding({Made(5).level(90), Made(6).level(20).found(State::spilt), Made(16).level(10)});
    // 2 % a day for 5 days, 1 % a day for 10 after the spill: (5 x 10 + 10 x 10) / (25 + 100).
    CHECK(*spilt.first_empty()->percent_per_day == Approx(150.0 / 125));
    CHECK(*spilt.first_empty()->left_percent == 10);
    const auto rained = feeding({Made(5).level(80), Made(6).level(100).found(State::wet)});
    CHECK(*rained.first_empty()->percent_per_day == near(4));
}

TEST_CASE("what was put out is accounted for", "[analysis]") {
    const auto used = [](const std::vector<Visit>& visits, int containers = 1) {
        return feeding(visits, containers).used;
    };
    CHECK(used({}).put_out == 1);
    CHECK(used({}).gone == near(0));
    CHECK(used({Made(5).level(60)}).gone == near(0.4));
    // Topped up by the 40 % that had gone.
    CHECK(used({Made(5).level(60).do_it(Did::refilled)}).put_out == near(1.4));
    CHECK(used({Made(5).level(60).do_it(Did::refilled)}).gone == near(0.4));
    // Fresh bait: the old 60 % was taken back.
    CHECK(used({Made(5).level(60).do_it(Did::replaced)}).put_out == near(2));
    CHECK(used({Made(5).level(60).do_it(Did::replaced)}).gone == near(0.4));
    CHECK(used({Made(5).level(25).do_it(Did::removed)}).gone == near(0.75));
    CHECK(used({Made(5).found(State::missing)}).gone == near(1));
    CHECK(used({Made(5).level(60)}, 3).put_out == 3);
    CHECK(used({Made(5).level(60)}, 3).gone == near(1.2));
    CHECK_FALSE(used({Made(5).level(60).do_it(Did::refilled)}).at_most);
    CHECK(used({Made(5).do_it(Did::refilled)}).at_most);
    CHECK(used({Made(5).do_it(Did::refilled)}).put_out == 2);
}

TEST_CASE("containers are followed one by one when they are looked at so", "[analysis]") {
    const auto result = feeding({Made(10).in(1).level(80), Made(10).in(2).level(20)}, 2);
    REQUIRE(result.levels.size() == 2);
    REQUIRE(result.first_empty());
    CHECK(result.first_empty()->container == 2);
    CHECK(result.first_empty()->empty->at == day(12.5));
    CHECK(result.used.put_out == 2);
    CHECK(result.used.gone == near(1.0));
}

TEST_CASE("a station with no date of placing is followed from its first level", "[analysis]") {
    const auto result = feeding({Made(2).level(90), Made(12).level(70)}, 1, std::nullopt);
    REQUIRE(result.first_empty());
    CHECK(*result.first_empty()->percent_per_day == near(2));
    CHECK(result.first_empty()->empty->at == day(47));
}

TEST_CASE("levels are drawn as they were, a filling as a second point", "[analysis]") {
    const auto all =
        histories({site()}, {Made(5).level(60).do_it(Did::refilled), Made(9).level(80)});
    const auto paths = level_paths(site(), all.until(0, on_day(9)));
    REQUIRE(paths.size() == 1);
    CHECK(paths[0] == LevelPath{{placed, 100}, {day(5), 60}, {day(5), 100}, {day(9), 80}});
    Site unknown = site();
    unknown.placed.reset();
    CHECK(level_paths(unknown, all.until(0, on_day(4)))[0].empty());
}
