#include "tracking/analysis/control.hpp"

#include "catch_all.hpp"

#include "made.hpp"
#include "tracking/analysis/false_discovery.hpp"
#include "tracking/analysis/pest_evidence.hpp"
#include "tracking/analysis/verdict.hpp"

using namespace gallipot::analysis;
using namespace gallipot::analysis::made;

namespace {

Counts totals(const std::vector<std::pair<double, int>>& counts) {
    Counts result;
    if (counts.empty()) return result;
    result.start = day(counts.front().first);
    result.groups.resize(1);
    for (const auto& [days, seen] : counts) {
        result.totals.push_back({day(days), seen + 0.0});
        result.groups[0].push_back({days - counts.front().first, seen + 0.0});
        result.any_seen = result.any_seen || seen > 0;
    }
    result.all = counts.size();
    result.baseline = counts.front().first <= 0;
    return result;
}

PestEvidence evidence(std::vector<Counts> controls, const std::vector<Counts>& treated) {
    std::vector<TreatedPlace> places;
    for (const Counts& counts : treated) places.push_back({&counts, placed, {}, 14, 1});
    Controls all(std::move(controls));
    return evidence_of(places, all);
}

Efficacy against(std::vector<Counts> controls, const Counts& treated) {
    return evidence(std::move(controls), {treated}).effects.front();
}

}  // namespace

TEST_CASE("Abbott where only after-counts exist, from the mean of the last ones", "[analysis]") {
    // By arithmetic: (1 - 6/26) x 100. The controls were not counted before.
    const auto no_before = against({totals({{10, 28}, {14, 24}}), totals({{10, 26}, {13, 26}})},
                                   totals({{0, 28}, {10, 8}, {14, 4}}));
    CHECK(no_before.formula == Formula::abbott);
    CHECK(no_before.controls == 2);
    CHECK(*no_before.percent == Approx(76.9231).margin(5e-5));
    CHECK_FALSE(no_before.beyond_control);
    // The last three of many.
    const auto last = against({totals({{2, 500}, {10, 20}, {14, 20}, {21, 20}})},
                              totals({{1, 90}, {2, 80}, {10, 4}, {14, 6}, {21, 5}}));
    CHECK(last.formula == Formula::henderson_tilton);
    // One count carries no figure, nor does one made before placing.
    CHECK(against({totals({{9, 40}, {10, 26}})}, totals({{10, 6}})).why_none == NoControl::too_few);
    CHECK(against({totals({{10, 26}})}, totals({{9, 6}, {10, 6}})).why_none == NoControl::too_few);
    CHECK(against({totals({{0, 26}})}, totals({{0, 6}})).formula == Formula::none);
}

TEST_CASE("no figure against a control says why", "[analysis]") {
    const auto fell = totals({{0, 30}, {5, 12}, {10, 6}});
    CHECK(against({}, fell).why_none == NoControl::not_there);
    CHECK(against({Counts{}}, fell).why_none == NoControl::not_counted);
    CHECK(against({totals({{60, 9}})}, fell).why_none == NoControl::not_counted);
    CHECK(against({totals({{0, 0}, {10, 0}})}, fell).why_none == NoControl::empty_before);
    CHECK(against({totals({{0, 90}, {4, 80}, {10, 0}})}, fell).why_none == NoControl::empty_after);
    CHECK(against({totals({{0, 9}, {10, 8}})}, totals({{0, 0}, {10, 0}})).why_none ==
          NoControl::treated_empty);
    // None at a control with a mean of three may be chance: it is a count like any other.
    CHECK(against({totals({{0, 4}, {4, 2}, {10, 0}})}, fell).formula == Formula::henderson_tilton);
}

TEST_CASE("a control counts only over the same days", "[analysis]") {
    const auto fell = totals({{0, 30}, {7, 20}, {14, 12}, {21, 6}});
    // Level while the treated fell, whatever it did before and after.
    const auto level =
        against({totals({{-60, 400}, {0, 20}, {7, 21}, {14, 19}, {21, 20}, {60, 1}})}, fell);
    const auto same = against({totals({{0, 20}, {7, 21}, {14, 19}, {21, 20}})}, fell);
    CHECK(*level.percent == *same.percent);
    CHECK(*level.counted_from == on_day(0));
    CHECK(*level.counted_to == on_day(21));
    // Counted in the first week alone.
    CHECK(against({totals({{0, 20}, {7, 21}})}, fell).formula == Formula::none);
}

TEST_CASE("what one place against one cannot show is not claimed", "[analysis]") {
    const auto fell = totals({{0, 60}, {7, 30}, {14, 12}, {21, 4}});
    const auto level = totals({{0, 60}, {7, 62}, {14, 58}, {21, 61}});
    const auto one = against({level}, fell);
    CHECK(one.plain());
    CHECK_FALSE(one.chance);
    CHECK_FALSE(one.beyond_control);
    CHECK(caution_of(Verdict::falling, one) == Caution::two_places);
    // Several that all do so can; and where places differ as much as that, they cannot.
    const auto fell_too = totals({{0, 80}, {7, 42}, {14, 15}, {21, 6}});
    const auto several = evidence({level, level}, {fell, fell_too, fell});
    CHECK(several.effect.beyond_control);
    CHECK(several.effects[0].beyond_control);
    CHECK(caution_of(Verdict::falling, several.effect) == Caution::none);
    CHECK(caution_of(Verdict::falling, evidence({level}, {fell, fell_too, fell}).effect) ==
          Caution::one_control);
    const auto rose = totals({{0, 20}, {7, 42}, {14, 75}, {21, 160}});
    CHECK_FALSE(evidence({level, rose}, {fell, rose, level}).effect.beyond_control);
}

TEST_CASE("a fall like the control's is told from one beyond it", "[analysis]") {
    const auto halves = totals({{0, 40}, {7, 28}, {14, 19}, {21, 14}});
    const auto alike = evidence({halves, halves}, {halves, halves});
    CHECK(*alike.effect.percent == Approx(0).margin(1e-9));
    CHECK_FALSE(alike.effect.beyond_control);
    CHECK(caution_of(Verdict::falling, alike.effect) == Caution::like_control);
}

TEST_CASE("of many stations few are claimed by chance", "[analysis]") {
    // R: p.adjust(c(0.001, 0.012, 0.02, 0.06, 0.2, 0.9), "BH") <= 0.05: the first three.
    const std::vector<std::optional<double>> chances{0.2, 0.012, {}, 0.001, 0.9, 0.06, 0.02};
    CHECK(claims_that_hold(chances, 0.05) ==
          std::vector<bool>{false, true, false, true, false, false, true});
    CHECK(claims_that_hold({}, 0.05).empty());
}
