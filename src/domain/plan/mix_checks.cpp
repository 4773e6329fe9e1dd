#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

#include "domain/mixing/solution.hpp"
#include "domain/plan/measure_checks.hpp"
#include "domain/plan/mix_planner.hpp"
#include "domain/plan/pest_checks.hpp"
#include "domain/reference/pests.hpp"

namespace gallipot::plan {

using mixing::Limit;
using mixing::Recipe;
using units::in_g;
using units::in_mL;
using units::Mass;

namespace {

constexpr double slack = 1e-9;

/// What the number of a limit counts.
std::string unit_of(job::Basis basis) {
    return basis == job::Basis::percent_w_w   ? "% w/w"
           : basis == job::Basis::percent_w_v ? "% w/v"
                                              : "% v/v";
}

diag::Text comparable_problem(const job::Mix& mix, const job::Ingredient& ingredient,
                              const job::Limit& limit, double amount) {
    const job::Basis basis = limit.basis.value_or(*mix.basis);
    if (!mixing::percent(basis)) {
        return basis == job::Basis::as_measured
                   ? diag::say(
                         "a limit on '{}' needs a basis of its own here, since amounts have "
                         "no whole",
                         ingredient.name)
                   : diag::say(
                         "a limit on '{}' needs a basis of its own here, since parts have no "
                         "whole",
                         ingredient.name);
    }
    if (!(amount > 0 && amount < 100)) {
        return amount > 0 ? diag::say("a limit of {:g} % on '{}' says nothing: no mix holds more",
                                      amount, ingredient.name)
                          : diag::say(
                                "a limit of {:g} % on '{}' says nothing: no mix that has it holds "
                                "less",
                                amount, ingredient.name);
    }
    if (basis == job::Basis::percent_w_v && *mix.form == job::Form::dry) {
        return diag::say(
            "a limit on '{}' in percent w/v cannot be compared, because the volume "
            "of a dry mix changes as it packs",
            ingredient.name);
    }
    return {};
}

const job::Ingredient& ingredient_of(const MixCalculation& calculation, const Limit& limit) {
    return calculation.job->ingredients[limit.ingredient];
}

/// A limit and what is held against it, in the terms of the job file.
struct Against {
    double limit = 0, is = 0;
};
Against stand(const MixCalculation& calculation, std::span<const Mass> masses, const Limit& limit) {
    const double factor = calculation.recipe.as_factors[limit.ingredient];
    return {limit.percent / factor, mixing::percent_of(calculation.recipe, masses, limit) / factor};
}

/// The heaviest that an ingredient may have come out beside the lightest of all others; where the
/// limit goes by volume, the largest and the smallest, however powders pack.
std::vector<Mass> at_worst(const MixCalculation& calculation, const Limit& limit,
                           const mixing::Tools& tools) {
    std::vector<Mass> masses = calculation.at_worst(limit.ingredient);
    if (!mixing::by_volume(limit.on(calculation.recipe))) return masses;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const mixing::Measuring& way = calculation.chosen.ways[i];
        const Mass off = tools.reading_error(way, calculation.recipe.components[i].density.usual);
        masses[i] = calculation.chosen.masses[i] + (i == limit.ingredient ? off : -off);
    }
    return masses;
}

void check_limit(const job::Job& job, const MixCalculation& calculation, const Limit& limit,
                 const mixing::Tools& tools, diag::Diagnostics& out) {
    const job::Ingredient& ingredient = ingredient_of(calculation, limit);
    const std::string unit = unit_of(limit.on(calculation.recipe));
    const auto& place = calculation.job->limits.at(ingredient.name).percent.place;
    const Against target = stand(calculation, calculation.target, limit);
    if (target.is > target.limit * (1 + slack)) {
        out.error("over-limit", ingredient.rest ? ingredient.place : ingredient.amount.place,
                  diag::say("'{}' is asked at {:.3g} {}, above its limit of {:.3g}",
                            ingredient.name, target.is, unit, target.limit),
                  "look up where the recipe comes from which of the two is wrong, and correct it");
        return;
    }
    if (std::ranges::find(calculation.chosen.too_much, limit.ingredient) !=
        calculation.chosen.too_much.end()) {
        const Ingredient& it = calculation.mix.ingredients[limit.ingredient];
        out.error("over-limit-measured", place,
                  diag::say("the smallest measure listed takes more of '{}' than the {:.3g} g "
                            "that its limit of {:.3g} {} allows in a batch",
                            ingredient.name, in_g(it.measured_mass), target.limit, unit),
                  finer_measures(job, calculation, limit.ingredient));
        return;
    }
    const Against measured = stand(calculation, calculation.chosen.masses, limit);
    if (measured.is > measured.limit * (1 + slack)) {
        out.error("over-limit-measured", place,
                  diag::say("'{}' comes out at {:.3g} {} as measured, above its limit of {:.3g}",
                            ingredient.name, measured.is, unit, measured.limit),
                  finer_measures(job, calculation, limit.ingredient));
        return;
    }
    const Against worst = stand(calculation, at_worst(calculation, limit, tools), limit);
    if (worst.is <= worst.limit * (1 + slack)) return;
    const bool weighed = calculation.chosen.ways[limit.ingredient].weighed;
    out.warning(
        "limit-when-packed", place,
        weighed ? diag::say("weighed, '{}' may come out at {:.4g} {}, above its limit of {:.4g}, "
                            "depending on what lies between two steps of the scale",
                            ingredient.name, worst.is, unit, worst.limit)
                : diag::say("measured out, '{}' may come out at {:.4g} {}, above its limit of "
                            "{:.4g}, depending on how the powder packs and how finely the "
                            "measures read",
                            ingredient.name, worst.is, unit, worst.limit),
        weighed ? "use a finer scale, or make a larger batch" : "weigh it, or use finer measures");
}

diag::Text times(int count) {
    return count == 2 ? diag::say("twice") : diag::say("{} times", count);
}

void check_volume(const MixCalculation& calculation, const Demand& demand, diag::Diagnostics& out) {
    const Mix& mix = calculation.mix;
    const job::Mix& job = *calculation.job;
    if (mix.repeats > 1) {
        const int parts = mix.batches / mix.repeats;
        const double made = in_mL(mix.finished) * parts;
        diag::Text what = diag::say(
            "the batch makes {:.4g} mL of '{}', but its stations take {:.4g} mL: mix it "
            "{}",
            made, job.id, in_mL(demand.volume), times(mix.repeats));
        if (mix.fills_per_batch > 0 && parts == 1)
            what = diag::say("{}; one batch fills {} of the {} containers", what,
                             mix.fills_per_batch, mix.containers);
        out.warning("batch-too-small", *size_asked(job), what,
                    diag::say("leave '{}' out to have it worked out, or mix it as often as that",
                              std::string(job.makes ? "makes" : "batch")));
    }
    if (!job.vessel) return;
    if (mix.finished <= **job.vessel * (1 + slack)) return;
    out.warning("overfills-vessel", job.vessel->place,
                diag::say("as measured, a batch of '{}' makes {:.4g} mL, and the vessel holds "
                          "{:.4g} mL",
                          job.id, in_mL(mix.finished), in_mL(**job.vessel)),
                "use a larger vessel, or finer measures");
}

void check_dissolving(const MixCalculation& calculation, diag::Diagnostics& out) {
    if (!calculation.mix.never_dissolves) return;
    const mixing::Solution solution(calculation.recipe.components, calculation.strongest());
    const double over = solution.hottest_saturation();
    out.warning(
        "never-dissolves", calculation.job->place,
        std::isfinite(over)
            ? diag::say("'{}' holds {:.2g} times what its liquid dissolves even when "
                        "hot",
                        calculation.job->id, over)
            : diag::say("'{}' has nothing that its powders could dissolve in", calculation.job->id),
        "stir it before each fill, and check the amounts where the recipe comes from");
}

void check_usual(const MixCalculation& calculation, diag::Diagnostics& out) {
    const auto& usual = calculation.mix.usual;
    if (!usual || !usual->far_outside) return;
    const double is = calculation.mix.boric_acid_equivalent_w_w.usual;
    const bool strong = is > usual->high;
    const diag::Text figures =
        diag::say("'{}' is {:.2g} % as boric acid; usual against {} is {:.2g} to {:.2g} % ({})",
                  calculation.job->id, 100 * is, *calculation.job->against, 100 * usual->low,
                  100 * usual->high, usual->source);
    const diag::Text why = strong ? "too strong a bait is shunned or kills before it is carried "
                                    "home"
                                  : "too weak a bait does little";
    if (is > reference::error_outside * usual->high || is * reference::error_outside < usual->low) {
        out.error(
            "far-from-usual", calculation.job->place, figures,
            diag::say("check the recipe: {}; if you mean it, add accept: [far-from-usual]", why));
        return;
    }
    out.warning(strong ? "stronger-than-usual" : "weaker-than-usual", calculation.job->place,
                figures, diag::say("check the recipe: {}", why));
}

}  // namespace

std::vector<Limit> read_limits(const job::Mix& mix, const Recipe& recipe, diag::Diagnostics& out) {
    std::vector<Limit> limits;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        // A limit on what is not in the mix is the job reader's to refuse.
        const auto found = mix.limits.find(mix.ingredients[i].name);
        if (found == mix.limits.end()) continue;
        const job::Limit& limit = found->second;
        const diag::Text problem =
            comparable_problem(mix, mix.ingredients[i], limit, *limit.percent);
        if (problem.empty()) {
            limits.push_back({i, *limit.percent * recipe.as_factors[i], limit.basis});
        } else {
            out.error("limit-not-comparable", limit.percent.place, problem,
                      "look the limit up again where the recipe comes from, with the percent it is "
                      "in (% w/w, % w/v or % v/v), or take it out");
        }
    }
    return limits;
}

std::optional<UsualRange> usual_range(const job::Mix& mix, double boric_acid_equivalent) {
    if (boric_acid_equivalent <= 0) return std::nullopt;
    const reference::Pest* pest = reference::find_pest(*mix.against);
    if (pest == nullptr) return std::nullopt;
    std::optional<UsualRange> nearest;
    double minimum = std::numeric_limits<double>::infinity();
    for (const auto& usual : pest->usual) {
        if (usual.preparation != preparation(*mix.form)) continue;
        const double low = usual.low.fraction, high = usual.high.fraction;
        // How many times outside; 1 inside.
        const double outside =
            std::max({boric_acid_equivalent / high, low / boric_acid_equivalent, 1.0});
        if (outside >= minimum) continue;
        minimum = outside;
        nearest = {low,
                   high,
                   std::string(usual.source),
                   usual.provenance != reference::Provenance::memory,
                   outside > reference::far_outside,
                   std::string(usual.found_for)};
    }
    return nearest;
}

void check_mix(const job::Job& job, const MixCalculation& calculation, const Demand& demand,
               const mixing::Tools& tools, diag::Diagnostics& out) {
    for (const Limit& limit : calculation.limits) check_limit(job, calculation, limit, tools, out);
    check_measures(job, calculation, out);
    check_volume(calculation, demand, out);
    check_dissolving(calculation, out);
    check_usual(calculation, out);
}

}  // namespace gallipot::plan
