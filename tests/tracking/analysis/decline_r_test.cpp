#include <cmath>
#include <limits>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "r_program.hpp"
#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/quantile.hpp"

// The regression against R's own glm(family = quasipoisson), run as a program (r-base-core).

using namespace gallipot::analysis;

namespace {

using Groups = std::vector<std::vector<Count>>;

/// Data sets by name: made ones, then the edges.
std::map<std::string, Groups> data_sets() {
    std::map<std::string, Groups> sets;
    std::mt19937_64 random(20270302);
    const auto poisson = [&](double mean) {
        return static_cast<double>(std::poisson_distribution<long>(mean)(random));
    };
    const auto uniform = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const std::vector<double> visits{0, 1.0 / 24, 1, 4, 10, 21, 30};
    for (int i = 0; i < 40; ++i) {
        const double first = std::exp(uniform(std::log(3.0), std::log(300.0)));
        const double half_time = uniform(2, 20) * (i % 7 == 0 ? -1 : 1);
        std::vector<Count> counts;
        for (const double day : visits) {
            const double mean = first * std::exp2(-day / half_time);
            // Every other set is clumped: a gamma-distributed mean with variance 3 x mean.
            const double clumped =
                i % 2 == 0 ? mean : std::gamma_distribution<double>(mean / 3 + 1e-9, 3)(random);
            counts.push_back({day + (i % 5) * 100.0, poisson(clumped)});
        }
        sets["made" + std::to_string(i)] = {counts};
    }
    for (int i = 0; i < 6; ++i) {
        Groups groups(3 + static_cast<std::size_t>(i));
        for (auto& group : groups) {
            const double first = uniform(5, 60);
            for (const double day : visits)
                group.push_back({day, poisson(first * std::exp2(-day / 6)) + (day == 0 ? 1 : 0)});
        }
        sets["stations" + std::to_string(i)] = groups;
    }
    // Of a few minutes, or of many trap nights, from one visit to the next; one station and
    // several.
    for (int i = 0; i < 12; ++i) {
        Groups groups(1 + static_cast<std::size_t>(i) % 3);
        const int maximum = i % 2 == 0 ? 10 : 60;
        for (auto& group : groups) {
            const double first = uniform(2, 15);
            for (const double day : visits) {
                const double exposure = std::uniform_int_distribution<int>(1, maximum)(random);
                group.push_back(
                    {day, poisson(first * exposure * std::exp2(-day / 9)) + (day == 0 ? 1 : 0),
                     exposure});
            }
        }
        sets["exposure" + std::to_string(i)] = groups;
    }
    sets["as many in longer"] = {{{0, 20, 1}, {4, 20, 2}, {10, 20, 5}, {21, 21, 12}}};
    sets["zero first"] = {{{0, 0}, {1, 12}, {4, 7}, {10, 3}, {21, 1}}};
    sets["huge"] = {{{0, 4e9}, {1, 3.1e9}, {4, 2.2e9}, {10, 4e8}, {21, 1.5e7}, {30, 2e6}}};
    sets["three"] = {{{0, 20}, {4, 11}, {10, 5}}};
    sets["one in the middle"] = {{{0, 0}, {4, 9}, {10, 0}, {20, 0}}};
    sets["tail of zeros"] = {{{0, 14}, {1, 9}, {4, 1}, {10, 0}, {21, 0}, {30, 0}}};
    sets["same day twice"] = {{{0, 14}, {0, 18}, {4, 9}, {4, 5}, {10, 2}}};
    sets["rising"] = {{{0, 2}, {5, 3}, {10, 9}, {20, 31}}};
    sets["minutes apart"] = {{{0, 31}, {0.001, 30}, {0.002, 26}, {0.004, 27}, {0.005, 20}}};
    sets["far from day 0"] = {{{20000, 31}, {20003, 22}, {20009, 14}, {20015, 4}}};
    return sets;
}

struct Reference {
    double intercept, slope, intercept_error, slope_error, dispersion, df, low, high, normal_low,
        normal_high;
    bool converged;
};

std::map<std::string, Reference> fitted_by_r(const std::map<std::string, Groups>& sets) {
    std::ostringstream table;
    table.precision(17);
    table << "set,group,day,seen,exposure\n";
    for (const auto& [name, groups] : sets)
        for (std::size_t g = 0; g < groups.size(); ++g)
            for (const Count& c : groups[g])
                table << name << ",g" << g << ',' << c.day << ',' << c.seen << ',' << c.exposure
                      << '\n';
    std::map<std::string, Reference> results;
    for (const auto& row : gallipot::tests::run_r("glm.R", table.str())) {
        REQUIRE(row.size() == 12);
        std::vector<double> n;
        for (std::size_t i = 1; i <= 10; ++i) n.push_back(gallipot::tests::number_of_r(row[i]));
        results[row[0]] = {
            n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7], n[8], n[9], row[11] == "TRUE"};
    }
    return results;
}

}  // namespace

TEST_CASE("coefficients, errors and intervals are those of R's quasi-Poisson glm",
          "[analysis][R]") {
    const auto sets = data_sets();
    const auto reference = fitted_by_r(sets);
    REQUIRE(sets.size() >= 30);
    REQUIRE(reference.size() == sets.size());
    int compared = 0;
    const auto close = [](double value) { return Approx(value).epsilon(1e-6).margin(0); };
    for (const auto& [name, groups] : sets) {
        INFO(name);
        const Reference& r = reference.at(name);
        CHECK(r.converged);
        const Decline fit = fit_decline(groups);
        REQUIRE(fit.fitted == Fitted::yes);
        CHECK(fit.slope == close(r.slope));
        CHECK(fit.intercepts[0] == close(r.intercept));
        CHECK(static_cast<double>(fit.degrees_of_freedom) == r.df);
        REQUIRE(fit.dispersion);
        CHECK(*fit.dispersion == close(r.dispersion));
        CHECK(*fit.slope_error == close(r.slope_error));
        CHECK(*fit.intercept_error(0) == close(r.intercept_error));
        CHECK(fit.slope_interval()->low == close(r.low));
        CHECK(fit.slope_interval()->high == close(r.high));
        // R's confint.default takes the normal's quantile; so does ours when asked for it.
        const double reach =
            t_quantile(0.95, std::numeric_limits<double>::infinity()) * *fit.slope_error;
        CHECK(fit.slope - reach == close(r.normal_low));
        CHECK(fit.slope + reach == close(r.normal_high));
        ++compared;
    }
    CHECK(compared >= 50);
}

TEST_CASE("where R gives no interval there is none here either", "[analysis][R]") {
    const std::map<std::string, Groups> sets{
        {"two visits", {{{0, 24}, {10, 4}}}},
        {"two huge visits", {{{0, 3e9}, {21, 7e4}}}},
        {"one visit", {{{0, 24}}}},
        {"two counts on one day", {{{4, 24}, {4, 20}}}},
        {"all zeros", {{{0, 0}, {4, 0}, {10, 0}}}},
    };
    const auto reference = fitted_by_r(sets);
    for (const std::string name : {"two visits", "two huge visits"}) {
        INFO(name);
        const Reference& r = reference.at(name);
        const Decline fit = fit_decline(sets.at(name));
        REQUIRE(fit.fitted == Fitted::yes);
        CHECK(fit.slope == Approx(r.slope).epsilon(1e-6).margin(0));
        CHECK(fit.intercepts[0] == Approx(r.intercept).epsilon(1e-6).margin(0));
        CHECK(r.df == 0);
        CHECK(std::isnan(r.dispersion));
        CHECK_FALSE(fit.dispersion);
        CHECK_FALSE(fit.slope_interval());
    }
    for (const std::string name : {"one visit", "two counts on one day"}) {
        INFO(name);
        CHECK(std::isnan(reference.at(name).slope));
        CHECK(fit_decline(sets.at(name)).fitted == Fitted::too_few);
    }
    // R ends at some hugely negative level with a slope of no meaning; here it is told as such.
    CHECK(reference.at("all zeros").intercept < -20);
    CHECK(fit_decline(sets.at("all zeros")).fitted == Fitted::none_seen);
}
