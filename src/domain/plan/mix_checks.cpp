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

std::string better_batches(const MixCalculation& calculation, const Ingredient& ingredient) {
    const Mix& mix = calculation.mix;
    std::string out;
    for (const BetterBatch& batch : ingredient.better_batches) {
        if (!out.empty()) out += " or ";
        out += fmt::format("{:.6g} mL", in_mL(batch.measured) * mix.batches / mix.repeats);
    }
    if (out.empty()) return "use a scale or finer measures";
    if (calculation.job->makes) {
        return fmt::format(
            "write a batch of {} in place of 'makes', or use a scale or finer measures", out);
    }
    return fmt::format("set 'batch' to {}, or use a scale or finer measures", out);
}

std::string comparable_problem(const job::Mix& mix, const job::Ingredient& ingredient,
                               const job::Limit& limit, double amount) {
    const job::Basis basis = limit.basis.value_or(*mix.basis);
    if (!mixing::percent(basis)) {
        return fmt::format("a limit on '{}' needs a basis of its own here, since {} have no whole",
                           ingredient.name, basis == job::Basis::as_measured ? "amounts" : "parts");
    }
    if (!(amount > 0 && amount < 100)) {
        return fmt::format("a limit of {:g} % on '{}' can never be kept or never be reached",
                           amount, ingredient.name);
    }
    if (basis == job::Basis::percent_w_v && *mix.form == job::Form::dry) {
        return fmt::format(
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

void check_limit(const MixCalculation& calculation, const Limit& limit, const mixing::Tools& tools,
                 diag::Diagnostics& out) {
    const job::Ingredient& ingredient = ingredient_of(calculation, limit);
    const std::string unit = unit_of(limit.on(calculation.recipe));
    const auto& place = calculation.job->limits.at(ingredient.name).percent.place;
    const Against target = stand(calculation, calculation.target, limit);
    if (target.is > target.limit * (1 + slack)) {
        out.error("over-limit", ingredient.rest ? ingredient.place : ingredient.amount.place,
                  fmt::format("'{}' is asked at {:.3g} {}, above its limit of {:.3g}",
                              ingredient.name, target.is, unit, target.limit),
                  "look up where the recipe comes from which of the two is wrong, and correct it");
        return;
    }
    if (std::ranges::find(calculation.chosen.too_much, limit.ingredient) !=
        calculation.chosen.too_much.end()) {
        const Ingredient& it = calculation.mix.ingredients[limit.ingredient];
        out.error("over-limit-measured", place,
                  fmt::format("the smallest measure listed takes more of '{}' than the {:.3g} g "
                              "that its limit of {:.3g} {} allows in a batch",
                              ingredient.name, in_g(it.measured_mass), target.limit, unit),
                  better_batches(calculation, it));
        return;
    }
    const Against measured = stand(calculation, calculation.chosen.masses, limit);
    if (measured.is > measured.limit * (1 + slack)) {
        out.error("over-limit-measured", place,
                  fmt::format("'{}' comes out at {:.3g} {} as measured, above its limit of {:.3g}",
                              ingredient.name, measured.is, unit, measured.limit),
                  "use a scale or finer measures");
        return;
    }
    const Against worst = stand(calculation, at_worst(calculation, limit, tools), limit);
    if (worst.is <= worst.limit * (1 + slack)) return;
    const bool weighed = calculation.chosen.ways[limit.ingredient].weighed;
    out.warning(
        "limit-when-packed", place,
        fmt::format("{}, '{}' may come out at {:.4g} {}, above its limit of {:.4g}, "
                    "depending on {}",
                    weighed ? "weighed" : "measured out", ingredient.name, worst.is, unit,
                    worst.limit,
                    weighed ? "what lies between two steps of the scale"
                            : "how the powder packs and how finely the measures read"),
        weighed ? "use a finer scale, or make a larger batch" : "weigh it, or use finer measures");
}

job::Measure measure_of(job::Measure::Kind kind, std::string name, double mL, double marks_mL) {
    job::Measure it;
    it.kind = kind;
    it.name = std::move(name);
    it.volume = units::mL(mL);
    it.marks = units::mL(marks_mL);
    return it;
}

constexpr int a_dozen = 12;

/// A larger tool with which so much takes at most a dozen uses, and how many: "a scoop of 250 mL
/// would do it in 3". Empty where none is in reach.
std::string larger_tool(const job::Job& job, const MixCalculation& calculation,
                        std::size_t ingredient) {
    using Kind = job::Measure::Kind;
    const mixing::Component& component = calculation.recipe.components[ingredient];
    const bool liquid = component.state == reference::State::liquid;
    std::vector<std::pair<std::string, job::Measure>> larger;  // smallest first
    for (const double mL : {15.0, 60.0, 125.0, 250.0}) {
        larger.emplace_back(fmt::format("a level measure of {:g} mL", mL),
                            measure_of(Kind::scoop, "scoop", mL, 0));
    }
    if (liquid) {
        for (const double mL : {500.0, 1000.0, 2000.0, 5000.0}) {
            larger.emplace_back(
                fmt::format("a jug of {:g} L with marks every {:g} mL", mL / 1000, mL / 20),
                measure_of(Kind::jug, "jug", mL, mL / 20));
        }
    } else {
        for (const double g : {1000.0, 5000.0, 20'000.0}) {
            job::Measure scale;
            scale.kind = Kind::scale;
            scale.capacity = units::g(g);
            scale.resolution = units::g(g / 1000);
            larger.emplace_back(
                fmt::format("a scale to {:g} kg with steps of {:g} g", g / 1000, g / 1000), scale);
        }
    }
    mixing::Wanted wanted{calculation.target[ingredient],
                          component.density.usual,
                          component.state,
                          calculation.job->tolerance->fraction,
                          std::nullopt,
                          false};
    for (const auto& [name, tool] : larger) {
        std::vector<job::Measure> all = job.measures;
        all.push_back(tool);
        const mixing::Measuring way = mixing::Tools(all).measure(wanted);
        if (way.within_tolerance && way.actions <= a_dozen) {
            return fmt::format("{} would do it in {}", name, way.actions);
        }
    }
    return {};
}

/// Counting that far goes wrong, and takes long.
void check_uses(const job::Job& job, const MixCalculation& calculation, diag::Diagnostics& out) {
    for (std::size_t i = 0; i < calculation.mix.ingredients.size(); ++i) {
        const Ingredient& it = calculation.mix.ingredients[i];
        const auto maximum = std::ranges::max_element(it.measures, {}, &MeasureStep::times);
        if (maximum == it.measures.end() || maximum->times <= a_dozen) continue;
        const std::string larger = larger_tool(job, calculation, i);
        out.warning(
            "many-uses", calculation.job->ingredients[i].place,
            fmt::format("'{}' takes {} uses of '{}' for one batch{}", it.name, maximum->times,
                        maximum->measure, larger.empty() ? "" : "; " + larger),
            larger.empty() ? "list a larger measure, or mix smaller batches"
                           : "list such a tool under 'measures'");
    }
}

void check_measures(const job::Job& job, const MixCalculation& calculation,
                    diag::Diagnostics& out) {
    for (std::size_t i = 0; i < calculation.mix.ingredients.size(); ++i) {
        const Ingredient& it = calculation.mix.ingredients[i];
        const auto& place = calculation.job->ingredients[i].place;
        const bool too_much =
            std::ranges::find(calculation.chosen.too_much, i) != calculation.chosen.too_much.end();
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
                        better_batches(calculation, it));
        }
        for (const MeasureStep& step : it.measures) {
            if (step.kind != job::Measure::Kind::scale) continue;
            const auto scale = std::ranges::find(job.measures, step.measure, &job::Measure::name);
            const Mass doubt = scale->resolution / 2;
            if (doubt <= it.measured_mass * calculation.job->tolerance->fraction * (1 + slack))
                continue;
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

std::string times(int count) {
    return count == 2 ? "twice" : fmt::format("{} times", count);
}

void check_volume(const MixCalculation& calculation, const Demand& demand, diag::Diagnostics& out) {
    const Mix& mix = calculation.mix;
    const job::Mix& job = *calculation.job;
    if (mix.repeats > 1) {
        const int parts = mix.batches / mix.repeats;
        const double made = in_mL(mix.finished) * parts;
        const std::string fills = mix.fills_per_batch > 0 && parts == 1
                                      ? fmt::format("; one batch fills {} of the {} containers",
                                                    mix.fills_per_batch, mix.containers)
                                      : "";
        out.warning("batch-too-small", *size_asked(job),
                    fmt::format("the batch makes {:.4g} mL of '{}', but its stations take {:.4g} "
                                "mL: mix it {}{}",
                                made, job.id, in_mL(demand.volume), times(mix.repeats), fills),
                    fmt::format("leave '{}' out to have it worked out, or mix it as often as that",
                                job.makes ? "makes" : "batch"));
    }
    if (!job.vessel) return;
    if (mix.finished <= **job.vessel * (1 + slack)) return;
    out.warning("overfills-vessel", job.vessel->place,
                fmt::format("as measured, a batch of '{}' makes {:.4g} mL, and the vessel holds "
                            "{:.4g} mL",
                            job.id, in_mL(mix.finished), in_mL(**job.vessel)),
                "use a larger vessel, or finer measures");
}

void check_dissolving(const MixCalculation& calculation, diag::Diagnostics& out) {
    if (!calculation.mix.never_dissolves) return;
    const mixing::Solution solution(calculation.recipe.components, calculation.strongest());
    const double over = solution.hottest_saturation();
    out.warning("never-dissolves", calculation.job->place,
                std::isfinite(over)
                    ? fmt::format("'{}' holds {:.2g} times what its liquid dissolves even when "
                                  "hot",
                                  calculation.job->id, over)
                    : fmt::format("'{}' has nothing that its powders could dissolve in",
                                  calculation.job->id),
                "stir it before each fill, and check the amounts where the recipe comes from");
}

void check_usual(const MixCalculation& calculation, diag::Diagnostics& out) {
    const auto& usual = calculation.mix.usual;
    if (!usual || !usual->far_outside) return;
    const double is = calculation.mix.boric_acid_equivalent_w_w.usual;
    const bool strong = is > usual->high;
    const std::string figures =
        fmt::format("'{}' is {:.2g} % as boric acid; usual against {} is {:.2g} to {:.2g} % ({})",
                    calculation.job->id, 100 * is, *calculation.job->against, 100 * usual->low,
                    100 * usual->high, usual->source);
    const std::string why = strong ? "too strong a bait is shunned or kills before it is carried "
                                     "home"
                                   : "too weak a bait does little";
    if (is > reference::error_outside * usual->high || is * reference::error_outside < usual->low) {
        out.error(
            "far-from-usual", calculation.job->place, figures,
            fmt::format("check the recipe: {}; if you mean it, add accept: [far-from-usual]", why));
        return;
    }
    out.warning(strong ? "stronger-than-usual" : "weaker-than-usual", calculation.job->place,
                figures, "check the recipe: " + why);
}

}  // namespace

std::vector<Limit> read_limits(const job::Mix& mix, const Recipe& recipe, diag::Diagnostics& out) {
    std::vector<Limit> limits;
    for (std::size_t i = 0; i < recipe.components.size(); ++i) {
        // A limit on what is not in the mix is the job reader's to refuse.
        const auto found = mix.limits.find(mix.ingredients[i].name);
        if (found == mix.limits.end()) continue;
        const job::Limit& limit = found->second;
        const std::string problem =
            comparable_problem(mix, mix.ingredients[i], limit, *limit.percent);
        if (problem.empty()) {
            limits.push_back({i, *limit.percent * recipe.as_factors[i], limit.basis});
        } else {
            out.error("limit-not-comparable", limit.percent.place, problem,
                      "say in which percent it is, like 5 % w/w, or take the limit out");
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
    for (const Limit& limit : calculation.limits) check_limit(calculation, limit, tools, out);
    check_measures(job, calculation, out);
    check_uses(job, calculation, out);
    check_volume(calculation, demand, out);
    check_dissolving(calculation, out);
    check_usual(calculation, out);
}

}  // namespace gallipot::plan
