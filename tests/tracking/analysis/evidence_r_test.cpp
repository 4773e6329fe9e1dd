#include <cmath>
#include <map>
#include <random>
#include <sstream>
#include <string>

#include "catch_all.hpp"

#include "r_program.hpp"
#include "tracking/analysis/pest_evidence.hpp"

// The model of a pest against R: its glm for each place's line, metafor's random-effects model
// between places (r-base-core, r-cran-metafor).

using namespace gallipot::analysis;
using gallipot::tests::number_of_r;

namespace {

struct Trial {
    std::vector<Counts> treated, controls;
};

Counts made_counts(const std::vector<double>& days, const std::vector<double>& means,
                   double scatter, std::mt19937_64& random) {
    Counts counts;
    counts.start = LocalTime{};
    counts.groups.resize(1);
    for (std::size_t i = 0; i < days.size(); ++i) {
        double mean = means[i];
        if (scatter > 1)
            mean =
                std::gamma_distribution<double>(mean / (scatter - 1) + 1e-9, scatter - 1)(random);
        const auto seen =
            static_cast<double>(std::poisson_distribution<long>(mean + 1e-9)(random)) +
            (i == 0 ? 1 : 0);
        counts.groups[0].push_back({days[i], seen, 1});
        counts.totals.push_back({days_after(LocalTime{}, days[i]), seen});
    }
    counts.all = days.size();
    counts.any_seen = true;
    return counts;
}

/// Sixty trials: two places to fifteen, three counts to eight, level, falling and at once gone,
/// Poisson and clumped, alike and differing.
std::map<std::string, Trial> trials() {
    std::map<std::string, Trial> all;
    std::mt19937_64 random(20270302);
    const auto uniform = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const std::vector<double> visits{0, 3, 7, 11, 14, 18, 21, 28};
    for (int i = 0; i < 60; ++i) {
        Trial trial;
        const std::vector<double> days(visits.begin(), visits.begin() + 3 + i % 6);
        const int treated = 1 + i % 9, controls = 1 + i % 4;
        const double differ = i % 3 == 0 ? 0.05 : 0, scatter = 1.0 + 2 * (i % 3);
        const double fall = i % 5 == 0 ? 0.9 : uniform(0, 0.2);
        const auto place = [&](double slope) {
            slope += differ * std::normal_distribution<double>()(random);
            const double first = std::exp(uniform(std::log(6.0), std::log(90.0)));
            std::vector<double> means;
            for (const double day : days) means.push_back(first * std::exp(slope * day));
            return made_counts(days, means, scatter, random);
        };
        for (int k = 0; k < treated; ++k) trial.treated.push_back(place(-fall));
        for (int k = 0; k < controls; ++k) trial.controls.push_back(place(uniform(-0.03, 0.02)));
        all["trial" + std::to_string(i)] = std::move(trial);
    }
    return all;
}

}  // namespace

TEST_CASE("the effect on a pest, its interval and what it rests on are those of R",
          "[analysis][R]") {
    const auto all = trials();
    std::ostringstream table;
    table << "set,place,treated,day,seen,exposure\n";
    for (const auto& [name, trial] : all) {
        int number = 0;
        for (const auto* arm : {&trial.treated, &trial.controls})
            for (const Counts& counts : *arm) {
                ++number;
                for (const Count& c : counts.groups[0])
                    table << name << ",p" << 100 + number << ',' << (arm == &trial.treated) << ','
                          << c.day << ',' << c.seen << ",1\n";
            }
    }
    const auto rows = gallipot::tests::run_r("evidence.R", table.str());
    REQUIRE(rows.size() == all.size());
    int random_effects = 0, two_places = 0, without_slope = 0;
    for (const auto& row : rows) {
        INFO(row[0]);
        const Trial& trial = all.at(row[0]);
        std::vector<TreatedPlace> places;
        double days = 0;
        for (const Counts& counts : trial.treated) {
            places.push_back({&counts, {}, {}, 14, 1});
            days = counts.groups[0].back().day;
            if (fit_decline(counts.groups).fitted == Fitted::at_one_end) ++without_slope;
        }
        Controls controls(trial.controls);
        const PestEvidence evidence = evidence_of(places, controls);
        const auto close = [](double value) { return Approx(value).epsilon(1e-6).margin(1e-9); };
        CHECK(evidence.dispersion.value == close(number_of_r(row[1])));
        CHECK(evidence.between == close(number_of_r(row[2])));
        REQUIRE(evidence.effect.interval);
        const auto percent = [&](double slope) { return (1 - std::exp(slope * days)) * 100; };
        CHECK(evidence.effect.interval->high == close(percent(number_of_r(row[6]))));
        CHECK(evidence.effect.interval->low == close(percent(number_of_r(row[7]))));
        if (*evidence.effect.percent < 100)
            CHECK(*evidence.effect.percent == close(percent(number_of_r(row[3]))));
        if (number_of_r(row[2]) > 0) ++random_effects;
        if (places.size() + trial.controls.size() == 2) ++two_places;
    }
    // Each way is gone.
    CHECK(random_effects > 10);
    CHECK(two_places > 1);
    CHECK(without_slope > 3);
}
