#include "tracking/analysis/efficacy.hpp"

#include <random>

#include "catch_all.hpp"

using namespace gallipot::analysis;

namespace {
Approx near(double value) {
    return Approx(value).margin(5e-5).epsilon(0);
}
}  // namespace

TEST_CASE("Henderson-Tilton's worked examples", "[analysis]") {
    // The inputs and 78.46 % stand on a public gardening page.
    CHECK(*henderson_tilton({30, 6, 28, 26}) == near(78.4615));
    // The inputs and 88.89 % stand in a public bioassay unit test.
    CHECK(*henderson_tilton({100, 10, 100, 90}) == near(88.8889));
    // By arithmetic: 1 - 9000/43200, a control that grew.
    CHECK(*henderson_tilton({200, 50, 180, 216}) == near(79.1667));
    // More than before, and the control stood still: negative, not clipped.
    CHECK(*henderson_tilton({10, 15, 20, 20}) == near(-50));
}

TEST_CASE("Henderson-Tilton gives nothing where it would divide by zero", "[analysis]") {
    // The same public unit test takes a missing before-count and an empty control as no result.
    CHECK_FALSE(henderson_tilton({0, 6, 28, 26}));
    CHECK_FALSE(henderson_tilton({30, 6, 28, 0}));
    CHECK_FALSE(henderson_tilton({30, 6, 0, 26}));
    CHECK(*henderson_tilton({30, 0, 28, 26}) == 100);
}

TEST_CASE("Abbott's published example and live counts", "[analysis]") {
    // Abbott 1925, first page: 50 % dead in the check, 98 % in the treated; 96 by arithmetic. Of a
    // hundred each, 2 are left against 50.
    CHECK(*abbott(100 - 98, 100 - 50) == near(96));
    // By arithmetic: (1 - 6/26) x 100.
    CHECK(*abbott(6, 26) == near(76.9231));
    CHECK_FALSE(abbott(6, 0));
    // Schneider-Orelli's formula is the same; the values stand in a public bioassay unit test.
    CHECK(*abbott(100 - 80, 100 - 10) == near(77.7778));
    CHECK(*abbott(100 - 75, 100 - 5) == near(73.6842));
    CHECK(*abbott(100 - 5, 100 - 10) == near(-5.5556));
}

TEST_CASE("plain change has a sign", "[analysis]") {
    CHECK(*percent_change(200, 50) == -75);
    CHECK(*percent_change(40, 1) == -97.5);
    CHECK(*percent_change(4, 6) == 50);
    CHECK_FALSE(percent_change(0, 6));
}

TEST_CASE("the formulas agree where algebra says so", "[analysis]") {
    std::mt19937 random(7);
    std::uniform_int_distribution<int> count(1, 400);
    for (int i = 0; i < 1000; ++i) {
        BeforeAfter c{count(random) + 0.0, count(random) + 0.0, count(random) + 0.0,
                      count(random) + 0.0};
        const double by_ht = *henderson_tilton(c);
        const double mortality = -*percent_change(c.treated_before, c.treated_after);
        const double control = *percent_change(c.control_before, c.control_after);
        // Sun and Shepard (1947, J. Econ. Entomol. 40:710-715, recalled) from the same counts.
        CHECK((mortality + control) / (100 + control) * 100 ==
              Approx(by_ht).epsilon(1e-10).margin(1e-9));
        // With as many at the start it is Abbott on live counts.
        BeforeAfter same_start = c;
        same_start.control_before = c.treated_before;
        CHECK(*henderson_tilton(same_start) ==
              Approx(*abbott(c.treated_after, c.control_after)).epsilon(1e-10).margin(1e-9));
        // With a control that stood still it is the plain reduction.
        BeforeAfter still = c;
        still.control_after = c.control_before;
        CHECK(*henderson_tilton(still) == Approx(mortality).epsilon(1e-10).margin(1e-9));
    }
}
