#include "tracking/analysis/wood.hpp"

#include "catch_all.hpp"

#include "domain/reference/pests.hpp"
#include "made.hpp"
#include "tracking/analysis/rules.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

Site timber() {
    Site it = site("S1");
    it.sprayed = it.timber = true;
    it.containers = 0;
    it.window.reset();
    it.replace_by.reset();
    it.lasts.reset();
    it.pest = "termites";
    return it;
}

StationReport looked(const std::vector<std::pair<double, int>>& holes, int as_of) {
    return station({timber()}, counted(holes, "S1"), as_of);
}

bool asks_for(const StationReport& report, Action action) {
    for (const Step& step : report.steps)
        if (step.action == action) return true;
    return false;
}

}  // namespace

TEST_CASE("wood is active, quiet through a whole flying season, or not to be told yet",
          "[analysis]") {
    // Old holes, counted before the treatment, say nothing.
    CHECK(looked({{0, 12}}, 1).verdict == Verdict::wood_unknown);
    CHECK(looked({{0, 12}, {91, 0}}, 92).verdict == Verdict::wood_unknown);
    CHECK(looked({{0, 12}, {91, 0}, {364, 0}}, 364).verdict == Verdict::wood_unknown);
    CHECK(looked({{0, 12}, {91, 0}, {366, 0}}, 366).verdict == Verdict::wood_quiet);
    CHECK(looked({{0, 12}, {91, 3}}, 92).verdict == Verdict::wood_active);
    // New holes start the year anew.
    CHECK(looked({{0, 12}, {91, 3}, {400, 0}}, 400).verdict == Verdict::wood_unknown);
    CHECK(looked({{0, 12}, {91, 3}, {460, 0}}, 460).verdict == Verdict::wood_quiet);
}

// "None seen since ...: take it up" was said of termites.
TEST_CASE("what lives in wood is never gone, taken up or given another bait", "[analysis]") {
    for (const auto& holes : std::vector<std::vector<std::pair<double, int>>>{
             {{0, 9}, {10, 0}, {21, 0}, {40, 0}, {80, 0}},
             {{0, 9}, {91, 0}, {400, 0}, {800, 0}, {1200, 0}},
             {{0, 9}, {10, 20}, {21, 30}, {60, 40}},
             {{0, 9}, {10, 2}, {21, 9}},
             {{0, 0}, {91, 0}}}) {
        const auto report = looked(holes, 1300);
        CHECK(report.verdict >= Verdict::wood_active);
        for (const Action never : {Action::take_up, Action::change_bait, Action::replace,
                                   Action::move_it, Action::top_up, Action::keep_going})
            CHECK_FALSE(asks_for(report, never));
        CHECK_FALSE(report.has(Flag::rebound));
        CHECK_FALSE(report.has(Flag::stalled));
        CHECK(report.gone_days == 0);
        CHECK_FALSE(report.trend.change_percent);
        CHECK_FALSE(report.trend.half);
    }
    CHECK(asks_for(looked({{0, 9}, {91, 1}}, 91), Action::call_professional));
    CHECK_FALSE(asks_for(looked({{0, 9}, {91, 0}}, 91), Action::call_professional));
}

TEST_CASE("holes are not added to what walks about", "[analysis]") {
    const auto both = report_on({site("K1"), timber()},
                                together(counted({{0, 24}, {1, 20}, {4, 11}, {10, 4}}, "K1"),
                                         counted({{0, 90}, {10, 90}}, "S1")),
                                10);
    CHECK(both.pests[0].trend.first.seen == 24);
    CHECK(both.pests[0].trend.last.seen == 4);
    const auto wood_alone = report_on({timber()}, counted({{0, 9}, {91, 0}, {400, 0}}, "S1"), 400);
    CHECK(wood_alone.pests[0].verdict == Verdict::wood_quiet);
}

TEST_CASE("cockroaches are gone after 45 days and two counts of none", "[analysis]") {
    Site roaches = site();
    roaches.pest = "cockroaches";
    roaches.gone_days = 45;
    roaches.empty_counts = 2;
    const auto at = [&](const std::vector<std::pair<double, int>>& counts, int as_of) {
        return station({roaches}, counted(counts), as_of);
    };
    CHECK_FALSE(asks_for(at({{0, 24}, {10, 0}, {30, 0}}, 31), Action::take_up));
    CHECK(asks_for(at({{0, 24}, {10, 0}, {56, 0}}, 56), Action::take_up));
    CHECK_FALSE(asks_for(at({{0, 24}, {10, 1}, {56, 0}}, 120), Action::take_up));
}

TEST_CASE("a bait that none fed on the next day is moved or changed", "[analysis]") {
    const auto looked_next_day = [](std::optional<bool> feeding, int seen, int as_of = 1) {
        Made visit(1);
        visit.saw(seen).feeding = feeding;
        return station({site()}, {Made(0).saw(20), visit}, as_of);
    };
    CHECK(asks_for(looked_next_day(false, 18), Action::move_it));
    CHECK_FALSE(asks_for(looked_next_day(true, 18), Action::move_it));
    CHECK_FALSE(asks_for(looked_next_day(std::nullopt, 18), Action::move_it));
    // None about, none to feed; and after the first week other rules hold.
    CHECK_FALSE(asks_for(looked_next_day(false, 0), Action::move_it));
    CHECK_FALSE(asks_for(looked_next_day(false, 18, 9), Action::move_it));
}
