#include "tracking/analysis/decline.hpp"

#include <cmath>
#include <random>

#include "catch_all.hpp"

#include "tracking/analysis/quantile.hpp"

using namespace gallipot::analysis;

namespace {

void check_no_figures(const Decline& fit) {
    CHECK(fit.slope == 0);
    CHECK_FALSE(fit.slope_error);
    CHECK_FALSE(fit.slope_interval());
    CHECK_FALSE(fall_time(fit.slope, fit.slope_interval(), 0.5));
}

Decline fit(const std::vector<Count>& counts) {
    return fit_decline(counts);
}

}  // namespace

TEST_CASE("what cannot be fitted says why and holds no figures", "[analysis]") {
    const auto check = [](const std::vector<Count>& counts, Fitted why) {
        const Decline result = fit(counts);
        CHECK(result.fitted == why);
        check_no_figures(result);
    };
    check({}, Fitted::too_few);
    check({{0, 12}}, Fitted::too_few);
    check({{3, 12}, {3, 9}}, Fitted::too_few);  // two counts, but at one time
    check({{0, 0}, {4, 0}, {10, 0}}, Fitted::none_seen);
    // All gone after the first count: any steeper fall fits better still. R stops somewhere.
    check({{0, 14}, {4, 0}, {10, 0}}, Fitted::at_one_end);
    check({{0, 0}, {4, 0}, {10, 7}}, Fitted::at_one_end);
    check({{0, 14}, {4, 0}}, Fitted::at_one_end);
}

TEST_CASE("two counts give the line through them and no interval", "[analysis]") {
    const Decline result = fit({{0, 40}, {10, 10}});
    REQUIRE(result.fitted == Fitted::yes);
    CHECK(result.degrees_of_freedom == 0);
    CHECK(result.slope == Approx(std::log(0.25) / 10));
    CHECK_FALSE(result.slope_interval());
    const auto half = fall_time(result.slope, result.slope_interval(), 0.5);
    REQUIRE(half);
    CHECK(half->days == Approx(5));
    CHECK_FALSE(half->low);
    CHECK_FALSE(half->high);
    CHECK(fall_time(result.slope, {}, 0.1)->days == Approx(10 * std::log(10) / std::log(4)));
}

TEST_CASE("level counts are level, whatever rounding does", "[analysis]") {
    for (const double seen : {1.0, 7.0, 1e9}) {
        const Decline result = fit({{0, seen}, {0.1, seen}, {4, seen}, {11.7, seen}});
        REQUIRE(result.fitted == Fitted::yes);
        CHECK(result.slope == 0);
        CHECK_FALSE(fall_time(result.slope, {}, 0.5));
    }
}

TEST_CASE("counts that happen to lie on a line are not certain", "[analysis]") {
    const Decline result = fit({{0, 8}, {4, 4}, {8, 2}, {12, 1}});
    REQUIRE(result.fitted == Fitted::yes);
    CHECK(*result.dispersion == Approx(0).margin(1e-12));
    const Dispersion pooled = pooled_dispersion({&result, 1});
    CHECK(pooled.value == 1);
    CHECK(pooled.degrees == 2);
    const Interval slopes = result.slope_interval({1});
    const auto half = fall_time(result.slope, slopes, 0.5);
    CHECK(half->days == Approx(4));
    // As wide as the plain Poisson's: R's confint.default(glm(c(8,4,2,1) ~ c(0,4,8,12), poisson))
    // gives -0.3095356511 ... -0.0370379392 (R 4.2).
    CHECK(slopes.low == Approx(-0.3095356511).epsilon(1e-9));
    CHECK(slopes.high == Approx(-0.0370379392).epsilon(1e-8));
    CHECK(*half->low == Approx(std::log(2) / 0.3095356511).epsilon(1e-9));
    CHECK(*half->high == Approx(std::log(2) / 0.0370379392).epsilon(1e-8));
}

TEST_CASE("a fall that may be none has no latest day", "[analysis]") {
    const Decline result = fit({{0, 9}, {4, 11}, {10, 6}, {21, 7}});
    const auto half = fall_time(result.slope, result.slope_interval(), 0.5);
    REQUIRE(half);
    CHECK(half->low);
    CHECK_FALSE(half->high);
    // Rising numbers have no time to half at all.
    CHECK_FALSE(fall_time(fit({{0, 2}, {5, 3}, {10, 9}}).slope, {}, 0.5));
}

TEST_CASE("the clock's zero and unit do not matter", "[analysis]") {
    std::mt19937 random(3);
    for (int i = 0; i < 50; ++i) {
        std::vector<Count> counts, shifted;
        for (const double day : {0.0, 1.0, 4.0, 10.0, 21.0}) {
            const double seen = std::poisson_distribution<int>(30 * std::exp(-day / 9))(random);
            counts.push_back({day, seen});
            shifted.push_back({day * 24 + 1000, seen});
        }
        const Decline one = fit(counts), other = fit(shifted);
        REQUIRE(one.fitted == other.fitted);
        if (one.fitted != Fitted::yes) continue;
        CHECK(other.slope * 24 == Approx(one.slope).epsilon(1e-9));
        CHECK(*other.dispersion == Approx(*one.dispersion).epsilon(1e-9));
        CHECK(other.expected(0, 1000 + 24 * 7) == Approx(one.expected(0, 7)).epsilon(1e-9));
    }
}

TEST_CASE("the line meets what it must", "[analysis]") {
    // With a level of its own each group's expected counts add up to those seen: the likelihood's
    // own equations.
    const std::vector<std::vector<Count>> groups{
        {{0, 14}, {4, 9}, {10, 3}}, {{0, 40}, {5, 31}, {10, 8}, {21, 1}}, {{0, 0}, {4, 0}}};
    const Decline result = fit_decline(groups);
    REQUIRE(result.fitted == Fitted::yes);
    CHECK(result.counts == 7);
    CHECK(result.degrees_of_freedom == 4);
    for (std::size_t g = 0; g < 2; ++g) {
        double seen = 0, expected = 0;
        for (const Count& c : groups[g]) {
            seen += c.seen;
            expected += result.expected(g, c.day);
        }
        CHECK(expected == Approx(seen));
    }
    CHECK(std::isnan(result.intercepts[2]));
    const Interval band = result.expected_interval(1, 10, {1});
    CHECK(band.low < result.expected(1, 10));
    CHECK(band.high > result.expected(1, 10));
    CHECK(band.low > 0);
}

TEST_CASE("chances are those of R's distributions", "[analysis]") {
    CHECK(same_mean_chance(6, 0, 0.5, 1) == Approx(2.0 / 64));
    CHECK(same_mean_chance(0, 6, 0.5, 1) == Approx(2.0 / 64));
    CHECK(same_mean_chance(0, 0, 0.5, 1) == 1);
    CHECK(same_mean_chance(5, 5, 0.5, 1) == 1);
    // R: binom.test(c(20, 6))$p.value
    // By R: 2 * sum(dbinom(20:40, 40, 0.2)).
    CHECK(same_mean_chance(3, 9, 0.5, 1) == Approx(same_mean_chance(9, 3, 0.5, 1)));
    CHECK(same_mean_chance(3, 12, 0.2, 1) == 1);
    CHECK(same_mean_chance(20, 20, 0.2, 1) == Approx(4.33837862527e-05).epsilon(1e-9));
    CHECK(same_mean_chance(20, 6, 0.5, 1) == Approx(0.009355306625).epsilon(1e-9));
    // Where counts scatter four times as wide, four pests stand for one.
    CHECK(same_mean_chance(24, 0, 0.5, 4) == Approx(2.0 / 64));
    // R: dnbinom(0, mu = 6, size = 6 / 2), a variance of three times the mean; dpois(0, 6)
    CHECK(none_chance(6, 3) == Approx(0.0370370370370370).epsilon(1e-9));
    CHECK(none_chance(6, 1) == Approx(0.00247875217666636).epsilon(1e-9));
    // R: 2 * pt(-2.5, 4)
    CHECK(t_chance(2.5, 4) == Approx(0.066766544812).epsilon(1e-9));
    // R: qt(0.975, 4), qnorm(0.975)
    CHECK(t_quantile(0.95, 4) == Approx(2.776445105).epsilon(1e-9));
    CHECK(t_quantile(0.95, std::numeric_limits<double>::infinity()) ==
          Approx(1.959963985).epsilon(1e-9));
}
