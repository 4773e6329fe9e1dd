#include "domain/mixing/measuring.hpp"

#include <cmath>
#include <functional>
#include <limits>
#include <random>

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::mixing;
using job::Measure;
using reference::State;

namespace {

constexpr double us_tbsp = 14.78676478125, us_tsp = 4.92892159375;  // NIST Handbook 44, appendix C

Measure scoop(double mL) {
    Measure it;
    it.volume = units::mL(mL);
    return it;
}
Measure jug(double mL, double marks) {
    Measure it;
    it.kind = Measure::Kind::jug;
    it.volume = units::mL(mL);
    it.marks = units::mL(marks);
    return it;
}
Measure scale(double g, double marks) {
    Measure it;
    it.kind = Measure::Kind::scale;
    it.capacity = units::g(g);
    it.resolution = units::g(marks);
    return it;
}

/// At 1 g/mL, so that grams and millilitres are the same figure.
Wanted wanted_of(double mL, State state) {
    Wanted it;
    it.mass = units::g(mL);
    it.density = units::g_per_mL(1);
    it.state = state;
    return it;
}
Wanted water(double mL) {
    return wanted_of(mL, State::liquid);
}
Wanted powder(double mL) {
    return wanted_of(mL, State::powder);
}

double in_mL(const Measuring& way, double asked_mL) {
    return way.ratio * asked_mL;
}

}  // namespace

TEST_CASE("three quarters of a tablespoon for 12 mL is short, and there is better") {
    // Common practice, no source: what one reaches for at 12 mL. 0.75 x 14.787 = 11.09 mL.
    const double habit = 0.75 * us_tbsp / 12 - 1;
    CHECK(habit == Approx(-0.0758).margin(5e-5));
    const std::vector<Measure> spoons = {scoop(us_tbsp), scoop(us_tbsp / 2), scoop(us_tsp),
                                         scoop(us_tsp / 2), scoop(us_tsp / 4)};
    const Measuring way = Tools(spoons).measure(water(12));
    CHECK(way.within_tolerance);
    CHECK(std::abs(way.ratio - 1) < 0.05);
    // 1/2 tbsp + 1 tsp is 12.32 mL in two actions, +2.7 %.
    CHECK(way.actions == 2);
    CHECK(in_mL(way, 12) == Approx(us_tbsp / 2 + us_tsp));
}

TEST_CASE("US spoons rounded for nutrition labels are a set of their own") {
    // 21 CFR 101.9(b)(5)(viii): 5 and 15 mL. Then three quarters of a tablespoon are 11.25 mL.
    const std::vector<Measure> rounded = {scoop(15), scoop(5)};
    const Measuring way = Tools(rounded).measure(water(15));
    CHECK(way.actions == 1);
    CHECK(way.ratio == Approx(1));
    const std::vector<Measure> exact = {scoop(us_tbsp), scoop(us_tsp)};
    CHECK(Tools(exact).measure(water(15)).ratio == Approx(us_tbsp / 15));
}

TEST_CASE("the fewest actions win, then the smallest error") {
    const std::vector<Measure> spoons = {scoop(15), scoop(5), scoop(2.5), scoop(1.25)};
    SECTION("greedy would take 15 + 5 x 2 + ...: two of 12 beat three") {
        const Measuring way = Tools(std::vector{scoop(20), scoop(12), scoop(1)}).measure(water(24));
        CHECK(way.actions == 2);
        CHECK(in_mL(way, 24) == Approx(24));
    }
    SECTION("an exact sum of more actions loses against a near one of fewer") {
        const Measuring way = Tools(spoons).measure(water(15.5));
        CHECK(way.actions == 1);
        CHECK(in_mL(way, 15.5) == Approx(15));
    }
    SECTION("a jug is filled to the mark that is nearest") {
        const Measuring way = Tools(std::vector{jug(500, 25)}).measure(water(263));
        REQUIRE(way.steps.size() == 1);
        CHECK(units::in_mL(way.steps[0].volume) == Approx(275));
        CHECK(way.within_tolerance);
    }
    SECTION("more than a jug holds takes several fillings") {
        const Measuring way = Tools(std::vector{jug(500, 25)}).measure(water(1230));
        CHECK(way.actions == 3);
        REQUIRE(way.steps.size() == 2);
        CHECK(way.steps[0].times == 2);
        CHECK(units::in_mL(way.steps[0].volume) == Approx(500));
        CHECK(units::in_mL(way.steps[1].volume) == Approx(225));
    }
    SECTION("a jug and a spoon combine for a liquid") {
        const Measuring way = Tools(std::vector{jug(500, 50), scoop(15)}).measure(water(115));
        CHECK(way.actions == 2);
        CHECK(in_mL(way, 115) == Approx(115));
    }
    SECTION("a jug whose top mark is below its brim stops there") {
        const Measuring way = Tools(std::vector{jug(500, 300)}).measure(water(500));
        CHECK_FALSE(way.within_tolerance);
        CHECK(in_mL(way, 500) == Approx(600));
    }
}

TEST_CASE("powders and pastes do not go into jugs and syringes") {
    const std::vector<Measure> both = {jug(500, 1), scoop(15)};
    const Measuring way = Tools(both).measure(powder(30));
    REQUIRE(way.steps.size() == 1);
    CHECK(way.steps[0].measure == 1);
    CHECK(Tools(std::vector{jug(500, 1)}).measure(powder(30)).steps.empty());
    Wanted paste = powder(30);
    paste.state = State::paste;
    CHECK(Tools(std::vector{jug(500, 1)}).measure(paste).steps.empty());
}

TEST_CASE("a scale weighs to its resolution, up to its capacity, alone") {
    const Tools tools(std::vector{scale(2000, 1), scoop(5)});
    const Measuring way = tools.measure(powder(24.4));
    REQUIRE(way.steps.size() == 1);
    CHECK(way.weighed);
    CHECK(units::in_g(way.steps[0].weight) == Approx(24));
    const Measuring heavy = Tools(std::vector{scale(2000, 1)}).measure(powder(5000));
    CHECK(heavy.actions == 3);
    REQUIRE(heavy.steps.size() == 2);
    CHECK(heavy.steps[0].times == 2);
    // A tenth of what it carries is left for the bowl, so 1.8 kg at a time.
    CHECK(units::in_g(heavy.steps[0].weight) == Approx(1800));
    CHECK(units::in_g(heavy.steps[1].weight) == Approx(1400));
    // 1.85 kg: one weighing of 1.8 kg is within 5 %, so it is preferred to two.
    CHECK(Tools(std::vector{scale(2000, 1)}).measure(powder(1850)).actions == 1);
    CHECK(Tools(std::vector{scale(2000, 1)}).measure(powder(2000)).actions == 2);
    // 3.2 g on a 1 g scale is 6 % off at best; three scoops of 1 mL are 6 % off as well.
    const Measuring little = Tools(std::vector{scale(2000, 1)}).measure(powder(3.2));
    CHECK_FALSE(little.within_tolerance);
    CHECK(little.ratio == Approx(3 / 3.2));
}

TEST_CASE("never above what is allowed") {
    const std::vector<Measure> spoons = {scoop(5)};
    Wanted wanted = powder(9.8);
    CHECK(Tools(spoons).measure(wanted).ratio > 1);
    wanted.at_most = units::g(9.8);
    const Measuring way = Tools(spoons).measure(wanted);
    CHECK(way.ratio == Approx(5 / 9.8));
    CHECK_FALSE(way.within_tolerance);
    wanted.at_most = units::g(4);
    CHECK(Tools(spoons).measure(wanted).steps.empty());
    CHECK(Tools(std::vector{scale(100, 5)}).measure(wanted).steps.empty());
    // Exactly the limit is not above it, even after sums of spoon sizes.
    Wanted third = powder(3 * us_tsp);
    third.at_most = third.mass;
    CHECK(Tools(std::vector{scoop(us_tsp)}).measure(third).ratio == Approx(1));
}

TEST_CASE("rounded up, nothing comes out below what is asked") {
    Wanted want = water(104);
    CHECK(in_mL(Tools(std::vector{jug(500, 100)}).measure(want), 104) == Approx(100));
    want.round_up = true;
    CHECK_FALSE(Tools(std::vector{jug(500, 100)}).measure(want).within_tolerance);
    CHECK(in_mL(Tools(std::vector{jug(500, 100), scoop(5)}).measure(want), 104) == Approx(105));
}

TEST_CASE("what a tool reads is off by half a step either way, for each time") {
    const auto off = [](const Measure& tool, double mL, State state) {
        const Tools tools(std::vector{tool});
        const Measuring way = tools.measure(wanted_of(mL, state));
        return units::in_g(tools.reading_error(way, units::g_per_mL(1)));
    };
    // What a scale with steps of 1 g shows as 1 g weighs 0.5 to 1.5 g.
    CHECK(off(scale(2000, 1), 1, State::powder) == Approx(0.5));
    // 5 kg take three weighings on 2 kg.
    CHECK(off(scale(2000, 1), 5000, State::powder) == Approx(1.5));
    CHECK(off(jug(500, 25), 250, State::liquid) == Approx(12.5));
    // Twice to the brim and once to 225 mL.
    CHECK(off(jug(500, 25), 1225, State::liquid) == Approx(37.5));
    CHECK(off(scoop(5), 10, State::powder) == 0);
}

TEST_CASE("what is exactly right has no error at all") {
    // Three spoons of 4.93 mL, 7 of 0.1 g: the last bit is not an error.
    for (int n = 1; n < 60; ++n) {
        Wanted spoons = powder(n * us_tsp), tenths = powder(n * 0.1);
        spoons.tolerance = tenths.tolerance = 1e-6;
        CHECK(Tools(std::vector{scoop(us_tsp)}).measure(spoons).ratio == 1);
        CHECK(Tools(std::vector{scale(100, 0.1)}).measure(tenths).ratio == 1);
    }
}

TEST_CASE("no tools, no way") {
    CHECK(Tools(std::vector<Measure>{}).empty());
    const Measuring way = Tools(std::vector<Measure>{}).measure(water(10));
    CHECK(way.steps.empty());
    CHECK_FALSE(way.within_tolerance);
    CHECK_FALSE(Tools(std::vector{scale(10, 1)}).empty());
}

TEST_CASE("hostile sizes end soon") {
    const Tools tiny(std::vector{scoop(1e-3), scoop(1.1e-3), scoop(1.23e-3), jug(1e6, 1e-3)});
    Wanted wanted = water(1e6);
    wanted.tolerance = 0;
    wanted.at_most = wanted.mass * 0.9999999;
    CHECK_FALSE(tiny.measure(wanted).steps.empty());
    CHECK_FALSE(Tools(std::vector{scoop(1e-3)}).measure(water(1e3)).steps.empty());
}

// A plain reference: every combination up to a number of actions, nothing clever.
namespace {

struct Best {
    bool any = false, within = false;
    int actions = 0;
    double off = std::numeric_limits<double>::infinity();
};

void keep(Best& best, const Wanted& wanted, double ratio, int actions) {
    constexpr double slack = 1e-9;
    const double off = std::abs(ratio - 1);
    if (wanted.at_most && ratio * wanted.mass.si() > wanted.at_most->si() * (1 + slack)) return;
    const bool within = off <= wanted.tolerance + slack;
    const bool better =
        !best.any || within > best.within ||
        (within == best.within &&
         (within ? actions < best.actions || (actions == best.actions && off < best.off - slack)
                 : off < best.off - slack || (off <= best.off + slack && actions < best.actions)));
    if (better) best = {true, within, actions, off};
}

Best brute_force(const std::vector<Measure>& measures, const Wanted& wanted, int maximum_actions) {
    Best best;
    std::vector<double> single;  // volumes that one action gives, mL
    for (const auto& it : measures) {
        if (it.kind == Measure::Kind::scale) {
            const double step = units::in_g(it.resolution), capacity = units::in_g(it.capacity);
            const double target = units::in_g(wanted.mass);
            for (int n = 1; n * step < 3 * target + 2 * step; ++n) {
                // A tenth of the capacity for the bowl, but one step at least.
                const int a_time = std::max(int(std::floor(0.9 * capacity / step + 1e-9)),
                                            capacity >= step ? 1 : 0);
                if (a_time == 0) continue;
                keep(best, wanted, n * step / target, (n + a_time - 1) / a_time);
            }
        } else if (it.kind == Measure::Kind::scoop) {
            single.push_back(units::in_mL(it.volume));
        } else if (wanted.state == State::liquid) {
            const int top = int(std::floor(it.volume / it.marks + 1e-9));
            for (int k = 1; k <= top; ++k) single.push_back(k * units::in_mL(it.marks));
        }
    }
    const double target = units::in_mL(wanted.mass / wanted.density);
    std::function<void(std::size_t, double, int)> go = [&](std::size_t from, double sum, int used) {
        if (used > 0) keep(best, wanted, sum / target, used);
        if (used == maximum_actions || sum > 3 * target) return;
        for (std::size_t i = from; i < single.size(); ++i) go(i, sum + single[i], used + 1);
    };
    go(0, 0, 0);
    return best;
}

}  // namespace

TEST_CASE("the chosen measures equal a brute-force optimum") {
    std::mt19937 random(20270302);
    const auto pick = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    const double sizes[] = {us_tbsp, us_tbsp / 2, us_tsp, us_tsp / 2, us_tsp / 4,
                            15,      10,          5,      2.5,        20,
                            1.25,    59.147,      78.86,  118.294,    236.588};
    int weighed = 0, marked = 0, off = 0, capped = 0;
    for (int round = 0; round < 3000; ++round) {
        std::vector<Measure> measures;
        for (int i = pick(0, 4); i > 0; --i) measures.push_back(scoop(sizes[pick(0, 14)]));
        if (pick(0, 3) == 0) measures.push_back(jug(pick(1, 8) * 25, 25));
        if (pick(0, 5) == 0) measures.push_back(jug(pick(1, 4) * 5, 5));
        if (pick(0, 4) == 0) measures.push_back(scale(pick(1, 20) * 25, pick(1, 3)));
        const double target = std::exp(std::uniform_real_distribution<double>(-0.5, 5)(random));
        Wanted wanted = pick(0, 1) ? water(target) : powder(target);
        wanted.density = units::g_per_mL(pick(5, 15) / 10.0);
        wanted.tolerance = pick(0, 5) ? 0.05 : 0.02;
        if (pick(0, 2) == 0) wanted.at_most = wanted.mass * (1 + 0.02 * pick(-3, 2));
        const int maximum_actions = 7;
        const Best best = brute_force(measures, wanted, maximum_actions);
        const Measuring way = Tools(measures).measure(wanted);
        INFO("round " << round << ", asked " << target << " mL, " << measures.size() << " tools");
        if (way.actions > maximum_actions) {
            // Beyond what the plain search tries it may only find something worse.
            CHECK_FALSE(best.within);
            continue;
        }
        REQUIRE(best.any == !way.steps.empty());
        if (!best.any) continue;
        if (!best.within && !way.within_tolerance) {
            // The plain search stops early, so it can be no nearer.
            CHECK(std::abs(way.ratio - 1) <= best.off + 1e-9);
        } else {
            CHECK(way.within_tolerance == best.within);
            CHECK(way.actions == best.actions);
            CHECK(std::abs(way.ratio - 1) == Approx(best.off).margin(1e-9));
        }
        // The steps say what the ratio says.
        double sum = 0;
        int actions = 0;
        for (const Step& step : way.steps) {
            sum += step.times *
                   (way.weighed ? units::in_g(step.weight)
                                : units::in_mL(step.volume) * units::in_g_per_mL(wanted.density));
            actions += step.times;
        }
        CHECK(sum == Approx(way.ratio * units::in_g(wanted.mass)));
        CHECK(actions == way.actions);
        weighed += way.weighed;
        marked += !way.weighed && measures[way.steps.back().measure].kind == Measure::Kind::jug;
        off += !way.within_tolerance;
        capped += wanted.at_most.has_value();
    }
    // The suite is worth something only if every kind of answer came up.
    CHECK(weighed > 100);
    CHECK(marked > 100);
    CHECK(off > 100);
    CHECK(capped > 100);
}

TEST_CASE("what a scale reads is met exactly, whatever the last bit says") {
    const Tools tools(std::vector{scale(23, 0.1)});
    for (int n = 1; n <= 200; ++n) {
        Wanted want = powder(n * 0.1);
        want.tolerance = 0;
        const Measuring way = tools.measure(want);
        INFO(n << " tenths");
        CHECK(way.within_tolerance);
        CHECK(in_mL(way, n * 0.1) == Approx(n * 0.1));
        CHECK(way.actions == 1);
    }
    // A scale that reads one figure only.
    CHECK(Tools(std::vector{scale(0.1, 0.1)}).measure(powder(0.1)).actions == 1);
    CHECK(Tools(std::vector{scale(0.05, 0.1)}).measure(powder(0.1)).steps.empty());
}

TEST_CASE("no weighing is above the scale's capacity, near or not") {
    // Steps of 3 g, 9 g at a time: 24 g for 25 g, as 9, 9 and 6.
    const Tools tools(std::vector{scale(10, 3)});
    Wanted want = powder(25);
    want.tolerance = 0.001;
    const Measuring way = tools.measure(want);
    CHECK_FALSE(way.within_tolerance);
    CHECK(way.actions == 3);
    REQUIRE(way.steps.size() == 2);
    CHECK(way.steps[0].times == 2);
    CHECK(units::in_g(way.steps[0].weight) == Approx(9));
    CHECK(way.steps[1].times == 1);
    CHECK(units::in_g(way.steps[1].weight) == Approx(6));
}

TEST_CASE("of two ways equally far off the one with fewer actions is taken") {
    const auto way = [](const std::vector<Measure>& measures) {
        Wanted want = powder(9);
        want.tolerance = 0.01;
        return Tools(measures).measure(want);
    };
    // 8 for 9: weighed at once or in two spoons, at once in a spoon or in two weighings.
    CHECK(way({scale(8, 8), scoop(4)}).weighed);
    CHECK_FALSE(way({scale(4, 4), scoop(8)}).weighed);
    CHECK(way({scale(4, 4), scoop(8)}).actions == 1);
    // As many actions too: weighed.
    CHECK(way({scale(8, 8), scoop(8)}).weighed);
}

TEST_CASE("of two sums equally far off the one with fewer actions is taken, found first or last") {
    // 24 for 24.6: 20 + 2 + 2, 12 + 12, 12 and six of 2.
    Wanted want = powder(24.6);
    want.tolerance = 0.01;
    const Measuring way = Tools(std::vector{scoop(20), scoop(12), scoop(2)}).measure(want);
    CHECK_FALSE(way.within_tolerance);
    CHECK(way.ratio == Approx(24 / 24.6));
    CHECK(way.actions == 2);
    REQUIRE(way.steps.size() == 1);
    CHECK(way.steps[0].measure == 1);
}

TEST_CASE("a measure that can measure nothing is passed over, and those after it are not") {
    const auto way = [](const Measure& first, const Wanted& want) {
        return Tools(std::vector{first, scoop(2.5)}).measure(want);
    };
    for (const Measure& useless : {scale(10, 1), scale(10, 0), scoop(0), jug(10, 20)}) {
        const Measuring found = way(useless, water(2.5));
        REQUIRE(found.steps.size() == 1);
        CHECK(found.steps[0].measure == 1);
        CHECK(found.ratio == Approx(1));
    }
    // A jug without marks is filled to its brim.
    const Measuring brim = Tools(std::vector{jug(100, 0)}).measure(water(200));
    CHECK(brim.actions == 2);
    CHECK(brim.ratio == Approx(1));
}

TEST_CASE("two spoons of one size are one spoon used twice") {
    const Measuring way = Tools(std::vector{scoop(5), scoop(5)}).measure(powder(10));
    REQUIRE(way.steps.size() == 1);
    CHECK(way.steps[0].times == 2);
    CHECK(way.steps[0].measure == 0);
}
