#include <map>
#include <random>
#include <sstream>

#include "catch_all.hpp"

#include "made.hpp"
#include "r_program.hpp"

// Minutes and trap nights of visits as the exposure of their counts.

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;
using gallipot::tests::number_of_r;
using gallipot::tests::run_r;

namespace {

Visit in_minutes(double days, int seen, int minutes, const std::string& at = "K1") {
    Made visit = Made(days, at).saw(seen);
    visit.minutes = minutes;
    return visit;
}

Visit in_traps(double days, int seen, int trap_nights, const std::string& at = "K1") {
    Made visit = Made(days, at).saw(seen);
    visit.trap_nights = trap_nights;
    return visit;
}

}  // namespace

TEST_CASE("change, Henderson-Tilton and Abbott compare rates, as R's glm with an offset does",
          "[analysis][R]") {
    struct Four {
        std::array<int, 4> seen, exposure;  // treated before, after, control before, after
    };
    std::mt19937 random(18);
    const auto between = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    std::map<std::string, Four> sets{{"as long", {{40, 8, 30, 27}, {3, 3, 3, 3}}},
                                     {"half as long", {{40, 8, 30, 27}, {10, 5, 10, 5}}},
                                     {"more", {{5, 44, 30, 27}, {2, 5, 3, 4}}}};
    for (int i = 0; i < 20; ++i)
        sets["made" + std::to_string(i)] = {
            {between(10, 90), between(1, 40), between(10, 90), between(5, 90)},
            {between(1, 15), between(1, 15), between(1, 15), between(1, 15)}};
    std::ostringstream table;
    table << "set,treated,after,seen,exposure\n";
    for (const auto& [name, four] : sets)
        for (std::size_t i = 0; i < 4; ++i)
            table << name << ',' << (i < 2) << ',' << i % 2 << ',' << four.seen[i] << ','
                  << four.exposure[i] << '\n';
    const auto rows = run_r("rates.R", table.str());
    REQUIRE(rows.size() == sets.size());
    const auto close = [](double value) { return Approx(value).epsilon(1e-6).margin(1e-9); };
    for (const auto& row : rows) {
        INFO(row[0]);
        const Four& four = sets.at(row[0]);
        const double change = number_of_r(row[1]), effect = number_of_r(row[2]),
                     after_only = number_of_r(row[3]);
        for (const auto& visit : {in_minutes, in_traps}) {
            const auto made = [&](std::size_t i) {
                return visit(i % 2 == 0 ? 0 : 10, four.seen[i], four.exposure[i],
                             i < 2 ? "K1" : "C1");
            };
            const std::vector<Site> sites{site(), control()};
            const Report report = report_on(sites, {made(0), made(1), made(2), made(3)}, 10);
            const StationReport& at = report.stations.front();
            CHECK(*at.trend.change_percent == close(change));
            CHECK(at.efficacy.formula == Formula::henderson_tilton);
            CHECK(*at.efficacy.percent == close(effect));
            CHECK(*report.pests[0].trend.change_percent == close(change));
            CHECK(*report.pests[0].efficacy.percent == close(effect));
            // By Abbott where the control was not counted at first: means of the last two.
            const auto on = [](Visit made_visit, double days) {
                made_visit.time = day(days);
                return made_visit;
            };
            const StationReport late = station(sites,
                                               {on(made(0), 1), on(made(1), 30), on(made(1), 31),
                                                on(made(3), 30), on(made(3), 31)},
                                               31);
            CHECK(late.efficacy.formula == Formula::abbott);
            CHECK(*late.efficacy.percent == close(after_only));
        }
    }
}

TEST_CASE("twice the pests in twice the time are as many", "[analysis]") {
    const auto same = station({site()}, {in_minutes(0, 20, 5), in_minutes(10, 40, 10)}, 10);
    CHECK(*same.trend.change_percent == Approx(0).margin(1e-9));
    CHECK(same.trend.last.seen == Approx(20));
    CHECK(same.trend.last.counted() == Approx(40));
    CHECK(same.counts.exposure == 5);
    CHECK(same.counts.exposures_differ);
    CHECK(same.verdict == Verdict::no_change);
    // As many in four times the time are a quarter.
    const auto fewer = station({site()}, {in_minutes(0, 200, 5), in_minutes(10, 200, 20)}, 10);
    CHECK(*fewer.trend.change_percent == Approx(-75));
    CHECK(fewer.trend.falls);
    CHECK_FALSE(station({site()}, counted({{0, 20}, {10, 20}}), 10).trend.falls);
    CHECK_FALSE(station({site()}, {in_minutes(0, 20, 5), in_minutes(10, 20, 5)}, 10)
                    .counts.exposures_differ);
}

TEST_CASE("one pest that stands for many is no rebound", "[analysis]") {
    // One pest in one minute after ten minutes each: as many as ten, but one pest.
    const auto one =
        station({site()}, {in_minutes(0, 20, 10), in_minutes(4, 2, 10), in_minutes(10, 1, 1)}, 10);
    CHECK(one.trend.last.seen == Approx(10));
    CHECK_FALSE(one.has(Flag::rebound));
    const auto many =
        station({site()}, {in_minutes(0, 20, 10), in_minutes(4, 2, 10), in_minutes(10, 30, 5)}, 10);
    CHECK(many.has(Flag::rebound));
}

TEST_CASE("counts in another unit are left out and told, but none is forgotten", "[analysis]") {
    const auto mixed = station({site()},
                               {in_minutes(0, 30, 3), in_minutes(4, 12, 3), in_minutes(10, 6, 3),
                                Made(11).saw(80), in_traps(12, 9, 4)},
                               12);
    CHECK(mixed.counts.unit == ExposureUnit::minutes);
    CHECK(mixed.counts.not_alike == 2);
    CHECK(*mixed.trend.change_percent == Approx(-80));
    CHECK(mixed.trend.decline.counts == 3);

    // None in three minutes, then four in a count that notes no time: they are not gone.
    auto visits = std::vector<Visit>{in_minutes(0, 30, 3), in_minutes(4, 5, 3),
                                     in_minutes(10, 0, 3), in_minutes(30, 0, 3)};
    CHECK(station({site()}, visits, 30).verdict == Verdict::gone);
    visits.push_back(Made(31).saw(4));
    const auto back = station({site()}, visits, 31);
    CHECK(back.verdict != Verdict::gone);
    CHECK(std::ranges::none_of(back.steps,
                               [](const Step& s) { return s.action == Action::take_up; }));
    CHECK(report_on({site()}, visits, 31).pests[0].verdict != Verdict::gone);
    // And none is none, however it was counted.
    visits.back() = Made(31).saw(0);
    CHECK(station({site()}, visits, 31).verdict == Verdict::gone);

    // Of as many, the first one's unit; no two alike: no change is claimed.
    const auto unlike = station({site()}, {Made(0).saw(30), in_minutes(10, 3, 3)}, 10);
    CHECK(unlike.counts.unit == ExposureUnit::none);
    CHECK(unlike.verdict == Verdict::counted_once);
    CHECK(unlike.counts.all == 2);
}

TEST_CASE("treated and control places are compared only in the same unit", "[analysis]") {
    const std::vector<Site> sites{site(), control()};
    const std::vector<Visit> treated{in_minutes(0, 30, 3), in_minutes(10, 6, 3)};
    const auto with = [&](const std::vector<Visit>& controls) {
        return station(sites, together(treated, controls), 10).efficacy;
    };
    CHECK(with(counted({{0, 20}, {10, 22}}, "C1")).why_none == NoControl::not_counted);
    CHECK(with({in_minutes(0, 20, 3, "C1"), in_minutes(10, 22, 3, "C1")}).percent);
    // The control has more counts without a time; those with one are compared.
    const auto both = with(together(counted({{0, 99}, {4, 98}, {10, 97}}, "C1"),
                                    {in_minutes(0, 20, 3, "C1"), in_minutes(10, 20, 3, "C1")}));
    CHECK(*both.percent == Approx(80));
}

TEST_CASE("a catch is by trap nights, whatever the minutes", "[analysis]") {
    Made first = Made(0).saw(12), last = Made(10).saw(12);
    first.trap_nights = 4;
    first.minutes = 2;
    last.trap_nights = 12;
    const auto caught = station({site()}, {first, last}, 10);
    CHECK(caught.counts.unit == ExposureUnit::trap_nights);
    CHECK(*caught.trend.change_percent == Approx(-100.0 * 2 / 3));
}

TEST_CASE("holes in a square are there or not, however long one looks", "[analysis]") {
    Site wood = site("S1");
    wood.timber = true;
    const auto holes = station({wood}, {in_minutes(0, 3, 5, "S1"), Made(20, "S1").saw(1)}, 20);
    CHECK(holes.counts.totals.size() == 2);
    CHECK(holes.counts.not_alike == 0);
    CHECK(holes.verdict == Verdict::wood_active);
}
