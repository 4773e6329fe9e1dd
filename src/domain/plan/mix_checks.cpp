#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

#include "domain/mixing/solution.hpp"
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

/// "2 x 1 tsp + 1 x 1/4 tsp", "jug to 250 mL", "24 g on the scale"
std::string in_words(const Ingredient& ingredient) {
    std::string out;
    for (const MeasureStep& step : ingredient.measures) {
        if (!out.empty()) out += " + ";
        if (step.times > 1) out += fmt::format("{} x ", step.times);
        if (step.kind == job::Measure::Kind::scale) {
            out += fmt::format("{:.4g} g on '{}'", in_g(step.weight), step.measure);
        } else if (step.kind == job::Measure::Kind::scoop) {
            out += step.measure;
        } else {
            out += fmt::format("'{}' to {:.4g} mL", step.measure, in_mL(step.volume));
        }
    }
    return out;
}

std::string better_batches(const Worked& worked, const Ingredient& ingredient) {
    std::string out;
    for (const BetterBatch& batch : ingredient.better_batches) {
        if (!out.empty()) out += " or ";
        out += fmt::format("{:.6g} mL", in_mL(batch.measured) * worked.mix.batches);
    }
    if (out.empty()) return "use a scale or finer measures";
    return fmt::format("set 'batch' to {}, or use a scale or finer measures", out);
}

std::string comparable_problem(const job::Mix& mix, const job::Ingredient& ingredient,
                               double amount) {
    if (!mixing::percent(*mix.basis)) {
        return fmt::format("a limit on '{}' cannot be held against parts, which have no whole",
                           ingredient.name);
    }
    if (!(amount > 0 && amount < 100)) {
        return fmt::format("a limit of {:g} % on '{}' can never be kept or never be reached",
                           amount, ingredient.name);
    }
    if (*mix.basis == job::Basis::percent_w_v && *mix.form == job::Form::dry) {
        return fmt::format(
            "a limit on '{}' in percent w/v cannot be compared, because the volume "
            "of a dry mix changes as it packs",
            ingredient.name);
    }
    return {};
}

const job::Ingredient& ingredient_of(const Worked& worked, const Limit& limit) {
    return worked.job->ingredients[limit.ingredient];
}

/// A limit and what is held against it, in the terms of the job file.
struct Against {
    double limit = 0, is = 0;
};
Against stand(const Worked& worked, std::span<const Mass> masses, const Limit& limit) {
    const double factor = worked.recipe.as_factors[limit.ingredient];
    return {limit.percent / factor,
            mixing::percent_of(worked.recipe, masses, limit.ingredient) / factor};
}

void check_limit(const Worked& worked, const Limit& limit, diag::Diagnostics& out) {
    const job::Ingredient& ingredient = ingredient_of(worked, limit);
    const std::string unit = unit_of(worked.recipe.basis);
    const auto& place = worked.job->limits.at(ingredient.name).place;
    const Against asked = stand(worked, worked.asked, limit);
    if (asked.is > asked.limit * (1 + slack)) {
        out.error("over-limit", ingredient.rest ? ingredient.place : ingredient.amount.place,
                  fmt::format("'{}' is asked at {:.3g} {}, above its limit of {:.3g}",
                              ingredient.name, asked.is, unit, asked.limit),
                  "lower the amount, or raise the limit if it is wrong");
        return;
    }
    if (std::ranges::find(worked.chosen.too_much, limit.ingredient) !=
        worked.chosen.too_much.end()) {
        const Ingredient& it = worked.mix.ingredients[limit.ingredient];
        out.error("over-limit-measured", place,
                  fmt::format("the smallest measure listed takes more of '{}' than the {:.3g} g "
                              "that its limit of {:.3g} {} allows in a batch",
                              ingredient.name, in_g(it.measured_mass), asked.limit, unit),
                  better_batches(worked, it));
        return;
    }
    const Against measured = stand(worked, worked.chosen.masses, limit);
    if (measured.is > measured.limit * (1 + slack)) {
        out.error("over-limit-measured", place,
                  fmt::format("'{}' comes out at {:.3g} {} as measured, above its limit of {:.3g}",
                              ingredient.name, measured.is, unit, measured.limit),
                  "use a scale or finer measures");
        return;
    }
    // Scooped, volumes are right however the powder packs; masses are not.
    if (mixing::by_volume(worked.recipe.basis)) return;
    const Against packed = stand(worked, worked.at_worst(limit.ingredient), limit);
    if (packed.is > packed.limit * (1 + slack)) {
        out.warning("limit-when-packed", place,
                    fmt::format("scooped, '{}' may come out at {:.3g} {}, above its limit of "
                                "{:.3g}, depending on how the powder packs",
                                ingredient.name, packed.is, unit, packed.limit),
                    "weigh it");
    }
}

void check_measures(const job::Job& job, const Worked& worked, diag::Diagnostics& out) {
    for (std::size_t i = 0; i < worked.mix.ingredients.size(); ++i) {
        const Ingredient& it = worked.mix.ingredients[i];
        const auto& place = worked.job->ingredients[i].place;
        const bool too_much =
            std::ranges::find(worked.chosen.too_much, i) != worked.chosen.too_much.end();
        if (it.measures.empty() && !too_much && !job.measures.empty()) {
            out.warning("no-measure-for", place,
                        fmt::format("nothing under 'measures' can measure '{}', so it is given by "
                                    "weight only",
                                    it.name),
                        it.powder ? "list a spoon or a scale" : "list a jug, a spoon or a scale");
        } else if (!it.within_tolerance) {
            out.warning("measure-off", place,
                        fmt::format("the nearest to {:.3g} g of '{}' that can be measured is {}: "
                                    "{:.3g} g, {:+.0f} %",
                                    in_g(it.mass), it.name, in_words(it), in_g(it.measured_mass),
                                    100 * it.error),
                        better_batches(worked, it));
        }
        for (const MeasureStep& step : it.measures) {
            if (step.kind != job::Measure::Kind::scale) continue;
            const auto scale = std::ranges::find(job.measures, step.measure, &job::Measure::name);
            const Mass doubt = scale->resolution / 2;
            if (doubt <= it.measured_mass * worked.job->tolerance->fraction * (1 + slack)) continue;
            out.warning(
                "coarse-scale", place,
                fmt::format("{:.3g} g of '{}' on a scale of {:.3g} g marks may be {:.2g} g "
                            "more or less",
                            in_g(step.weight), it.name, in_g(scale->resolution), in_g(doubt)),
                "use a finer scale, or make a larger batch");
            break;
        }
    }
}

void check_volume(const Worked& worked, const Demand& demand, diag::Diagnostics& out) {
    const double made = in_mL(worked.mix.finished_asked) * worked.mix.batches;
    const double really = in_mL(worked.mix.finished) * worked.mix.batches;
    const double taken = in_mL(demand.volume);
    const job::Mix& mix = *worked.job;
    if (mix.batch && made < taken * (1 - slack)) {
        const double enough = in_mL(**mix.batch) * taken * (1 + mix.spare->fraction) / made;
        out.warning("batch-too-small", mix.batch->place,
                    fmt::format("the batch makes {:.4g} mL of '{}', but its stations take {:.4g} "
                                "mL",
                                made, mix.id, taken),
                    fmt::format("give a 'batch' of {:.4g} mL, or leave it out", enough));
    } else if (really < taken * (1 - slack)) {
        out.warning("comes-out-short", mix.place,
                    fmt::format("as measured, '{}' makes {:.4g} mL, but its stations take {:.4g} "
                                "mL",
                                mix.id, really, taken),
                    "give more 'spare', or use finer measures");
    }
}

void check_dissolving(const Worked& worked, diag::Diagnostics& out) {
    if (!worked.mix.never_dissolves) return;
    const mixing::Solution solution(worked.recipe.components, worked.strongest());
    const double over = solution.hottest_saturation();
    out.warning(
        "never-dissolves", worked.job->place,
        std::isfinite(over)
            ? fmt::format("'{}' holds {:.2g} times what its water dissolves even when "
                          "hot",
                          worked.job->id, over)
            : fmt::format("'{}' has no water that its powders could dissolve in", worked.job->id),
        "take less of what does not dissolve, or more water");
}

void check_usual(const Worked& worked, diag::Diagnostics& out) {
    const auto& usual = worked.mix.usual;
    if (!usual || !usual->far_outside) return;
    const double is = worked.mix.boric_acid_equivalent_w_w.usual;
    const bool strong = is > usual->high;
    const std::string figures =
        fmt::format("'{}' is {:.2g} % as boric acid; usual against {} is {:.2g} to {:.2g} % ({})",
                    worked.job->id, 100 * is, *worked.job->against, 100 * usual->low,
                    100 * usual->high, usual->source);
    const std::string why = strong ? "too strong a bait is shunned or kills before it is carried "
                                     "home"
                                   : "too weak a bait does little";
    if (is > reference::error_outside * usual->high || is * reference::error_outside < usual->low) {
        out.error(
            "far-from-usual", worked.job->place, figures,
            fmt::format("check the recipe: {}; if you mean it, add accept: [far-from-usual]", why));
        return;
    }
    out.warning(strong ? "stronger-than-usual" : "weaker-than-usual", worked.job->place, figures,
                "check the recipe: " + why);
}

}  // namespace

std::vector<Limit> read_limits(const job::Mix& mix, const Recipe& recipe, diag::Diagnostics& out) {
    std::vector<Limit> limits;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        // A limit on what is not in the mix is the job reader's to refuse.
        const auto limit = mix.limits.find(mix.ingredients[i].name);
        if (limit == mix.limits.end()) continue;
        const std::string problem = comparable_problem(mix, mix.ingredients[i], *limit->second);
        if (problem.empty()) {
            limits.push_back({i, *limit->second * recipe.as_factors[i]});
        } else {
            out.error("limit-not-comparable", limit->second.place, problem,
                      "give the mix in percent w/w, or take the limit out");
        }
    }
    return limits;
}

std::optional<UsualRange> usual_range(const job::Mix& mix, double boric_acid_equivalent) {
    if (boric_acid_equivalent <= 0) return std::nullopt;
    const reference::Pest* pest = reference::find_pest(*mix.against);
    if (pest == nullptr) return std::nullopt;
    std::optional<UsualRange> nearest;
    double least = std::numeric_limits<double>::infinity();
    for (const auto& usual : pest->usual) {
        if (usual.preparation != preparation(*mix.form)) continue;
        const double low = usual.low.fraction, high = usual.high.fraction;
        // How many times outside; 1 inside.
        const double outside =
            std::max({boric_acid_equivalent / high, low / boric_acid_equivalent, 1.0});
        if (outside >= least) continue;
        least = outside;
        nearest = {low,
                   high,
                   std::string(usual.source),
                   usual.standing != reference::Standing::memory,
                   outside > reference::far_outside,
                   std::string(usual.found_for)};
    }
    return nearest;
}

void check_mix(const job::Job& job, const Worked& worked, const Demand& demand,
               diag::Diagnostics& out) {
    for (const Limit& limit : worked.limits) check_limit(worked, limit, out);
    check_measures(job, worked, out);
    check_volume(worked, demand, out);
    check_dissolving(worked, out);
    check_usual(worked, out);
}

}  // namespace gallipot::plan
