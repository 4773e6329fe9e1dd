#include "tracking/analysis/control.hpp"

#include "catch_all.hpp"

#include "made.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

Counts totals(const std::vector<std::pair<double, int>>& counts) {
    Counts result;
    for (const auto& [days, seen] : counts) result.totals.push_back({day(days), seen + 0.0});
    result.baseline = !counts.empty() && counts.front().first <= 0;
    return result;
}

Efficacy against(std::vector<Counts> controls, const Counts& treated) {
    return Controls(std::move(controls)).against(treated, placed);
}

}  // namespace

TEST_CASE("control stations are pooled round by round", "[analysis]") {
    // Two controls that together make the worked example 200, 50, 180, 216 (79.1667 %).
    const auto result =
        against({totals({{0, 100}, {10, 90}, {21, 150}}), totals({{0.5, 80}, {20, 66}})},
                totals({{0, 200}, {10, 77}, {21, 50}}));
    CHECK(result.formula == Formula::henderson_tilton);
    CHECK(result.controls == 2);
    CHECK(*result.percent == Approx(79.1667).margin(5e-5));
    CHECK(result.beyond_control());
    CHECK(result.why_none == NoControl::none);
}

TEST_CASE("Abbott where only after-counts exist", "[analysis]") {
    // By arithmetic: (1 - 6/26) x 100. The controls were not counted before.
    const auto no_before =
        against({totals({{10, 26}}), totals({{10, 26}})}, totals({{0, 28}, {10, 6}}));
    CHECK(no_before.formula == Formula::abbott);
    CHECK(no_before.controls == 2);
    CHECK(*no_before.percent == Approx(76.9231).margin(5e-5));
    CHECK_FALSE(no_before.beyond_control());
    // The station has one count, made after placing.
    CHECK(against({totals({{0, 40}, {10, 26}})}, totals({{10, 6}})).formula == Formula::abbott);
    // One count made before placing says nothing of what came after.
    CHECK(against({totals({{0, 26}})}, totals({{0, 6}})).formula == Formula::none);
}

TEST_CASE("no figure against a control says why", "[analysis]") {
    const auto fell = totals({{0, 30}, {10, 6}});
    CHECK(against({}, fell).why_none == NoControl::not_there);
    CHECK(against({Counts{}}, fell).why_none == NoControl::not_counted);
    CHECK(against({totals({{60, 9}})}, fell).why_none == NoControl::not_counted);
    CHECK(against({totals({{0, 0}, {10, 3}})}, fell).why_none == NoControl::empty_before);
    CHECK(against({totals({{0, 9}, {10, 0}})}, fell).why_none == NoControl::empty_after);
    CHECK(against({totals({{0, 9}, {10, 8}})}, totals({{0, 0}, {10, 6}})).why_none ==
          NoControl::treated_empty);
    for (const auto& control : {totals({{0, 0}, {10, 3}}), totals({{0, 9}, {10, 0}})})
        CHECK_FALSE(against({control}, fell).percent);
}

TEST_CASE("a fall like the control's is told from one beyond it", "[analysis]") {
    CHECK_FALSE(against({totals({{0, 40}, {10, 9}})}, totals({{0, 30}, {10, 6}})).beyond_control());
    CHECK(against({totals({{0, 40}, {10, 39}})}, totals({{0, 30}, {10, 3}})).beyond_control());
    // Few pests: 80 % by the formula, and still within chance.
    const auto few = against({totals({{0, 4}, {10, 4}})}, totals({{0, 5}, {10, 1}}));
    CHECK(*few.percent == Approx(80));
    CHECK_FALSE(few.beyond_control());
}

TEST_CASE("all together against all the controls", "[analysis]") {
    const Controls controls(
        {totals({{0, 100}, {30, 150}}), totals({{0, 80}, {28, 66}}), totals({{0, 7}})});
    const auto result = controls.against_all({placed, 200}, {day(30), 50}, placed);
    CHECK(*result.percent == Approx(79.1667).margin(5e-5));
    CHECK(result.controls == 2);
}
