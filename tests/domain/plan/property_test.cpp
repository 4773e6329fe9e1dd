#include <cmath>
#include <random>

#include "catch_all.hpp"

#include "domain/job/accept.hpp"
#include "domain/mixing/recipes.hpp"
#include "domain/plan/planner.hpp"
#include "domain/reference/substances.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using units::in_g;
using units::in_mL;

namespace {

/// Whole jobs of random sense, the same in every run.
class RandomJobs {
  public:
    explicit RandomJobs(unsigned seed) : recipes_(seed) {}

    job::Job next() {
        job::Job job = RandomRecipes::shelf();
        job.prepared.value = std::chrono::year{2027} / 3 / 2;
        job.help.region.value = recipes_.whole(0, 1) ? "US" : "AU";
        add_measures(job);
        job::Container cup;
        cup.id = "cup";
        cup.fill.value = units::mL(recipes_.real(5, 60));
        cup.holds.value = *cup.fill * 1.3;
        job::Openings openings;
        openings.side = recipes_.whole(0, 1);
        openings.area = units::cm2(recipes_.real(0.1, 20));
        openings.hole = units::mm(recipes_.whole(2, 10));
        cup.openings = openings;
        job.containers.push_back(cup);
        for (int i = recipes_.whole(1, 4); i > 0; --i) add_mix(job);
        return job;
    }

  private:
    void add_measures(job::Job& job) {
        const double sizes[] = {15, 5, 2.5, 1.25, 20, 60, 250};
        for (int i = recipes_.whole(0, 5); i > 0; --i) {
            job::Measure scoop;
            scoop.name = "scoop " + std::to_string(i);
            scoop.volume = units::mL(sizes[recipes_.whole(0, 6)]);
            job.measures.push_back(scoop);
        }
        if (recipes_.whole(0, 1)) {
            job::Measure jug;
            jug.name = "jug";
            jug.kind = job::Measure::Kind::jug;
            jug.volume = units::mL(500);
            jug.marks = units::mL(25);
            job.measures.push_back(jug);
        }
        if (recipes_.whole(0, 1)) {
            job::Measure scale;
            scale.name = "scale";
            scale.kind = job::Measure::Kind::scale;
            scale.capacity = units::g(2000);
            scale.resolution = units::g(recipes_.whole(1, 5));
            job.measures.push_back(scale);
        }
    }

    void add_mix(job::Job& job) {
        job::Mix mix = recipes_.next_mix();
        mix.id = "m" + std::to_string(job.mixes.size());
        mix.against.value = recipes_.whole(0, 1) ? "ants" : "cockroaches";
        mix.spare.value = units::Share::percent(recipes_.whole(0, 30));
        if (recipes_.whole(0, 1)) mix.batch = {units::mL(recipes_.real(50, 3000)), {}};
        if (recipes_.whole(0, 1)) mix.vessel = {units::mL(recipes_.real(60, 1000)), {}};
        if (recipes_.whole(0, 1)) mix.lasts = {units::days(recipes_.whole(1, 90)), {}};
        const bool whole = mixing::percent(*mix.basis) &&
                           !(*mix.basis == job::Basis::percent_w_v && *mix.form == job::Form::dry);
        if (whole && recipes_.whole(0, 1)) {
            const auto& first = mix.ingredients.front();
            mix.limits.emplace(first.name,
                               job::Limit{{*first.amount * recipes_.real(1, 1.3), {}}, {}});
        }
        job::Station station;
        station.id.value = "S" + std::to_string(job.mixes.size());
        station.mix = {mix.id, {}};
        const bool sprayed = *mix.form == job::Form::spray && recipes_.whole(0, 1);
        if (sprayed) {
            station.area = {units::m2(recipes_.real(0.1, 20)), {}};
            station.coats = recipes_.whole(1, 3);
        } else {
            station.container = {"cup", {}};
            station.count = recipes_.whole(1, 12);
        }
        job.mixes.push_back(std::move(mix));
        job.stations.push_back(std::move(station));
    }

    RandomRecipes recipes_;
};

/// Told that a batch of that mix is more than the vessel holds.
bool overfills(const diag::Diagnostics& out, const std::string& mix) {
    for (const auto& it : out.in_order()) {
        if (it.code == "overfills-vessel" &&
            it.message.english().find("'" + mix + "'") != std::string::npos) {
            return true;
        }
    }
    return false;
}

bool only_measuring_errors(const diag::Diagnostics& out) {
    for (const auto& it : out.in_order()) {
        if (it.severity == diag::Severity::error && it.code != "over-limit-measured" &&
            it.code != "measure-off" && !job::may_be_accepted(it))
            return false;
    }
    return true;
}

}  // namespace

TEST_CASE("what a plan says of a mix agrees with itself") {
    RandomJobs jobs(42);
    int mixes = 0, split = 0, overfilled = 0, limited = 0, surfaces = 0, drifting = 0;
    for (int round = 0; round < 1500; ++round) {
        const job::Job job = jobs.next();
        diag::Diagnostics out;
        const plan::Plan plan = plan::make_plan(job, {}, out);
        INFO("round " << round << '\n' << diag::print(out));
        // Nothing but a limit that no measure can keep is wrong with these jobs, and what a user
        // may accept: their strengths are drawn at random.
        REQUIRE(only_measuring_errors(out));
        REQUIRE(plan.mixes.size() == job.mixes.size());
        for (std::size_t m = 0; m < plan.mixes.size(); ++m) {
            const job::Mix& asked = job.mixes[m];
            const plan::Mix& mix = plan.mixes[m];
            INFO(mix.id);
            ++mixes;
            // Amounts sum to the batch, and the batches to what was wanted.
            units::Volume volume;
            units::Mass mass, measured;
            for (const auto& it : mix.ingredients) {
                volume += it.volume;
                mass += it.mass;
                measured += it.measured_mass;
                CHECK(it.measured_mass.si() == Approx(it.mass.si() * (1 + it.error)));
                CHECK(it.measured_mass_range.low <= it.measured_mass);
                CHECK(it.measured_mass <= it.measured_mass_range.high);
                if (it.within_tolerance && !it.measures.empty()) {
                    CHECK(std::abs(it.error) <= asked.tolerance->fraction + 1e-9);
                }
            }
            CHECK(volume.si() == Approx(mix.measured.si()));
            CHECK(mass.si() == Approx(mix.mass_asked.si()));
            CHECK(measured.si() == Approx(mix.mass.si()));
            if (asked.batch) {
                CHECK(mix.measured.si() * mix.batches / mix.repeats ==
                      Approx((**asked.batch).si()));
            } else {
                CHECK(mix.finished_asked.si() * mix.batches >= mix.needed.si() * (1 - 1e-9));
            }
            // Whatever is rounded, the stations get what they take.
            const double taken = mix.needed.si() / (1 + asked.spare->fraction);
            CHECK(mix.finished.si() * mix.batches >= taken * (1 - 1e-9));
            if (asked.vessel) {
                const double vessel = (**asked.vessel).si() * (1 + 1e-9);
                CHECK(mix.measured.si() <= vessel);
                CHECK(mix.finished_asked.si() <= vessel);
                const bool told = overfills(out, mix.id);
                CHECK((mix.finished.si() > vessel) == told);
                split += mix.batches > 1;
                overfilled += told;
            }
            // Strengths: bounds in order, and every limit kept as measured.
            for (const auto& [name, strength] : mix.strength) {
                CHECK(strength.w_w_range.low <= strength.w_w * (1 + 1e-12));
                CHECK(strength.w_w <= strength.w_w_range.high * (1 + 1e-12));
                CHECK(strength.w_v.si() ==
                      Approx(strength.w_w * mix.mass.si() / mix.finished.si()));
            }
            CHECK(mix.boron_w_w.low <= mix.boron_w_w.usual * (1 + 1e-12));
            CHECK(mix.boron_w_w.usual <= mix.boron_w_w.high * (1 + 1e-12));
            const double acid = reference::find_substance("boric acid")->boron_fraction();
            CHECK(mix.boric_acid_equivalent_w_w.usual * acid == Approx(mix.boron_w_w.usual));
            for (const auto& [name, limit] : asked.limits) {
                ++limited;
                const auto& strength = mix.strength.at(name);
                const auto& it = mix.ingredients.front();
                double is = 0;
                if (*asked.basis == job::Basis::percent_w_w) is = strength.w_w;
                if (*asked.basis == job::Basis::percent_w_v) is = units::in_g_per_mL(strength.w_v);
                if (*asked.basis == job::Basis::percent_v_v) {
                    units::Volume all;
                    for (const auto& other : mix.ingredients) all += other.measured_volume;
                    is = it.measured_volume / all;
                }
                CHECK(100 * is <= *limit.percent * (1 + 1e-8));
            }
        }
        for (const auto& station : plan.stations) {
            const plan::Mix& mix = *plan.mix(station.mix);
            REQUIRE(station.per_container);
            double sum = 0;
            for (const auto& [name, mass] : station.per_container->ingredients) sum += in_g(mass);
            CHECK(sum == Approx(in_g(station.per_container->mass)));
            CHECK(
                in_g(station.per_container->mass) ==
                Approx(in_mL(station.per_container->fill) * in_g(mix.mass) / in_mL(mix.finished)));
            CHECK(in_g(station.per_container->boron) ==
                  Approx(in_g(station.per_container->mass) * mix.boron_w_w.usual).margin(1e-12));
            surfaces += station.containers == 0;
            if (!station.evaporation) continue;
            ++drifting;
            const auto& after = station.evaporation->strength_after_lasts_w_w;
            CHECK(after.low >= mix.boric_acid_equivalent_w_w.usual * (1 - 1e-9));
            CHECK(after.low <= after.usual);
            CHECK(after.usual <= after.high);
            CHECK(std::isfinite(after.high));
        }
    }
    CHECK(mixes > 2000);
    CHECK(split > 100);
    CHECK(limited > 100);
    CHECK(surfaces > 20);
    CHECK(drifting > 100);
}

TEST_CASE("scaling a batch scales every amount") {
    RandomJobs jobs(4);
    std::mt19937 random(9);
    for (int round = 0; round < 500; ++round) {
        job::Job job = jobs.next();
        for (auto& mix : job.mixes) {
            mix.vessel.reset();
            mix.batch = {units::mL(500), {}};
        }
        diag::Diagnostics out;
        const plan::Plan one = plan::make_plan(job, {}, out);
        const double factor = std::uniform_real_distribution<double>(0.1, 10)(random);
        for (auto& mix : job.mixes) mix.batch->value = units::mL(500 * factor);
        const plan::Plan other = plan::make_plan(job, {}, out);
        INFO("round " << round);
        for (std::size_t m = 0; m < one.mixes.size(); ++m) {
            CHECK(other.mixes[m].mass_asked.si() == Approx(one.mixes[m].mass_asked.si() * factor));
            CHECK(other.mixes[m].finished_asked.si() ==
                  Approx(one.mixes[m].finished_asked.si() * factor));
            for (std::size_t i = 0; i < one.mixes[m].ingredients.size(); ++i) {
                CHECK(other.mixes[m].ingredients[i].mass.si() ==
                      Approx(one.mixes[m].ingredients[i].mass.si() * factor));
                CHECK(other.mixes[m].ingredients[i].volume.si() ==
                      Approx(one.mixes[m].ingredients[i].volume.si() * factor));
            }
            // What was asked does not change with how much is made.
            for (std::size_t i = 0; i < one.mixes[m].asked.size(); ++i) {
                CHECK(other.mixes[m].asked[i].share == Approx(one.mixes[m].asked[i].share));
            }
        }
    }
}

TEST_CASE("the same job gives the same plan") {
    RandomJobs jobs(8);
    for (int round = 0; round < 50; ++round) {
        const job::Job job = jobs.next();
        diag::Diagnostics first, second;
        const plan::Plan a = plan::make_plan(job, {}, first);
        const plan::Plan b = plan::make_plan(job, {}, second);
        CHECK(diag::print(first) == diag::print(second));
        for (std::size_t m = 0; m < a.mixes.size(); ++m) {
            CHECK(a.mixes[m].mass == b.mixes[m].mass);
            CHECK(a.mixes[m].boron_w_w.high == b.mixes[m].boron_w_w.high);
        }
    }
}
