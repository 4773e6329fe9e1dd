#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>

#include "domain/plan/planner.hpp"

/// How long 10,000 mixes with six measures take to plan, on one core:
///
///     bench_planning [MIXES]
///
/// The mixes differ in amounts, basis and containers; spoons, a jug and a scale are there. The aim
/// is under one second.

namespace {

using namespace gallipot;

job::Measure measure(const char* name, job::Measure::Kind kind) {
    job::Measure it;
    it.name = name;
    it.kind = kind;
    return it;
}

void add_measures(job::Job& job) {
    for (const auto& [name, mL] :
         {std::pair{"1 tbsp", 14.787}, {"1 tsp", 4.929}, {"1/2 tsp", 2.464}, {"1/4 tsp", 1.232}}) {
        job.measures.push_back(measure(name, job::Measure::Kind::scoop));
        job.measures.back().volume = units::mL(mL);
    }
    job.measures.push_back(measure("jug", job::Measure::Kind::jug));
    job.measures.back().volume = units::mL(500);
    job.measures.back().marks = units::mL(25);
    job.measures.push_back(measure("scale", job::Measure::Kind::scale));
    job.measures.back().capacity = units::g(2000);
    job.measures.back().resolution = units::g(1);
}

job::Ingredient ingredient(const char* name, double amount) {
    job::Ingredient it;
    it.name = name;
    it.amount.value = amount;
    it.rest = amount <= 0;
    return it;
}

job::Job job_of(int mixes) {
    std::mt19937 random(1);
    const auto real = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    job::Job job;
    job.prepared.value = std::chrono::year{2027} / 3 / 2;
    job.help.region.value = "AU";
    add_measures(job);
    job::Container cup;
    cup.id = "cup";
    cup.holds.value = units::mL(60);
    cup.fill.value = units::mL(45);
    job.containers.push_back(cup);
    for (int i = 0; i < mixes; ++i) {
        job::Mix mix;
        mix.id = "mix " + std::to_string(i);
        mix.against.value = "ants";
        mix.tolerance.value = units::Share::percent(5);
        mix.spare.value = units::Share::percent(10);
        const bool parts = i % 4 == 3;
        mix.form.value = parts ? job::Form::dry : job::Form::liquid;
        mix.basis.value = parts        ? job::Basis::parts_by_volume
                          : i % 4 == 2 ? job::Basis::percent_w_v
                                       : job::Basis::percent_w_w;
        const double borax = real(0.8, 1.5);
        mix.ingredients = {ingredient("borax", borax), ingredient("sugar", real(5, 25)),
                           parts ? ingredient("flour", real(1, 10)) : ingredient("water", 0)};
        if (!parts) mix.limits.emplace("borax", diag::At<double>{borax * 1.1, {}});
        job::Station station;
        station.id.value = "S" + std::to_string(i);
        station.mix = {mix.id, {}};
        station.container = {"cup", {}};
        station.count = 1 + i % 20;
        job.mixes.push_back(std::move(mix));
        job.stations.push_back(std::move(station));
    }
    return job;
}

}  // namespace

int main(int argc, char** argv) {
    const int mixes = argc > 1 ? std::atoi(argv[1]) : 10'000;
    const job::Job job = job_of(mixes);
    double best = INFINITY;
    std::size_t warnings = 0, errors = 0;
    for (int run = 0; run < 3; ++run) {
        diag::Diagnostics out;
        const auto start = std::chrono::steady_clock::now();
        const plan::Plan plan = plan::make_plan(job, {}, out);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        best = std::min(best, took.count());
        warnings = out.warnings();
        errors = out.errors();
    }
    std::printf("%d mixes, %zu warnings, %zu errors: %.3f s (best of 3), %.1f us a mix\n", mixes,
                warnings, errors, best, best / mixes * 1e6);
}
