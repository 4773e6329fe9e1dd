#include "domain/plan/measure_checks.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace gallipot::plan {

using units::in_g;
using units::in_mL;
using units::Mass;

namespace {

constexpr double slack = 1e-9;

/// How far beyond its tolerance an amount may come out before it is another recipe: a third. Ours:
/// the usual strengths against ants go from 0.5 to 1.0 %, so what is off by a third carries even a
/// bait from the middle of that out of it.
constexpr double far_off = 1.0 / 3;

/// "2 x 1 tsp + 1 x 1/4 tsp", "jug to 250 mL", "24 g on the scale"
diag::Text in_words(const Ingredient& ingredient) {
    std::vector<diag::Text> steps;
    for (const MeasureStep& step : ingredient.measures) {
        diag::Text once = step.measure;
        if (step.kind == job::Measure::Kind::scale) {
            once = diag::say("{:.4g} g on '{}'", in_g(step.weight), step.measure);
        } else if (step.kind != job::Measure::Kind::scoop) {
            once = diag::say("'{}' to {:.4g} mL", step.measure, in_mL(step.volume));
        }
        steps.push_back(step.times > 1 ? diag::say("{} x {}", step.times, once) : once);
    }
    return diag::joined(steps, " + ");
}

job::Measure measure_of(job::Measure::Kind kind, std::string name, double mL, double marks_mL) {
    job::Measure it;
    it.kind = kind;
    it.name = std::move(name);
    it.volume = units::mL(mL);
    it.marks = units::mL(marks_mL);
    return it;
}

job::Measure scale_of(double capacity_g, double marks_g) {
    job::Measure it;
    it.kind = job::Measure::Kind::scale;
    it.name = "scale";
    it.capacity = units::g(capacity_g);
    it.resolution = units::g(marks_g);
    return it;
}

/// Whether this ingredient of the recipe as it is would come out with that tool too.
bool would_do(const job::Job& job, const MixCalculation& calculation, std::size_t ingredient,
              const job::Measure& tool) {
    std::vector<job::Measure> all = job.measures;
    all.push_back(tool);
    const double tolerance = calculation.job->tolerance->fraction;
    const mixing::Tools tools(all);
    const mixing::Selection chosen = mixing::select(calculation.recipe, calculation.target, tools,
                                                    tolerance, calculation.limits);
    const mixing::Measuring& way = chosen.ways[ingredient];
    if (way.steps.empty() || !way.within_tolerance) return false;
    // A scale must read as finely as that, too.
    return !way.weighed || tool.resolution / 2 <= chosen.masses[ingredient] * tolerance;
}

/// "a level measure of 1.25 mL", the largest of each kind that would do; empty where none does.
diag::Text finer_tools(const job::Job& job, const MixCalculation& calculation,
                       std::size_t ingredient) {
    struct Tool {
        diag::Text name;
        job::Measure measure;
    };
    using Kind = job::Measure::Kind;
    std::vector<Tool> level, finer;
    for (const double mL : {5.0, 2.5, 1.25, 0.625})
        level.push_back(
            {diag::say("a level measure of {:g} mL", mL), measure_of(Kind::scoop, "scoop", mL, 0)});
    if (calculation.recipe.components[ingredient].state == reference::State::liquid) {
        for (const double mL : {500.0, 100.0, 20.0, 5.0, 1.0})
            finer.push_back(
                {diag::say("a jug or syringe of {:g} mL with marks every {:g} mL", mL, mL / 20),
                 measure_of(Kind::jug, "jug", mL, mL / 20)});
    } else {
        for (const double marks : {1.0, 0.1, 0.01, 0.001})
            finer.push_back(
                {diag::say("a scale with marks of {:g} g", marks), scale_of(2000 * marks, marks)});
    }
    diag::Text out;
    for (const auto& tools : {level, finer}) {
        const auto found = std::ranges::find_if(tools, [&](const Tool& tool) {
            return would_do(job, calculation, ingredient, tool.measure);
        });
        if (found != tools.end())
            out = out.empty() ? found->name : diag::say("{} or {}", out, found->name);
    }
    return out;
}

/// What the scale that an ingredient is weighed on may be wrong by, where that passes its
/// tolerance.
struct Doubt {
    Mass marks, mass;   ///< of the scale; of what is weighed
    double share = 0;   ///< how much of that it may be wrong by
    double excess = 0;  ///< how many times as much must be weighed for the tolerance to hold
};

std::optional<Doubt> doubt_of(const job::Job& job, const Ingredient& it, double tolerance) {
    for (const MeasureStep& step : it.measures) {
        if (step.kind != job::Measure::Kind::scale) continue;
        const auto scale = std::ranges::find(job.measures, step.measure, &job::Measure::name);
        const Mass off = scale->resolution / 2;
        if (off <= it.measured_mass * tolerance * (1 + slack)) continue;
        return Doubt{scale->resolution, step.weight, off / step.weight,
                     off / (it.measured_mass * tolerance)};
    }
    return std::nullopt;
}

/// "your 1 g scale can be 0.5 g (25 %) off"
diag::Text in_words(const Doubt& doubt) {
    return diag::say("your {:.3g} g scale can be {:.2g} g ({:.0f} %) off", in_g(doubt.marks),
                     in_g(doubt.marks) / 2, 100 * doubt.share);
}

diag::Text finer_scale(const Doubt& doubt) {
    double marks = in_g(doubt.marks);
    for (const double finer : {0.1, 0.01, 0.001}) {
        marks = std::min(marks, finer);
        if (marks * doubt.excess <= in_g(doubt.marks) * (1 + slack)) break;
    }
    constexpr double many = 10;
    const diag::Text scale = diag::say("use a scale with marks of {:g} g", marks);
    return doubt.excess > many ? scale
                               : diag::say("{}, or make {:.0f} times as much at once", scale,
                                           std::ceil(doubt.excess * (1 - slack)));
}

constexpr int a_dozen = 12;

/// A larger tool with which so much takes at most a dozen uses, and how many: "a scoop of 250 mL
/// would do it in 3". Empty where none is in reach.
diag::Text larger_tool(const job::Job& job, const MixCalculation& calculation,
                       std::size_t ingredient) {
    using Kind = job::Measure::Kind;
    const mixing::Component& component = calculation.recipe.components[ingredient];
    const bool liquid = component.state == reference::State::liquid;
    std::vector<std::pair<diag::Text, job::Measure>> larger;  // smallest first
    for (const double mL : {15.0, 60.0, 125.0, 250.0}) {
        larger.emplace_back(diag::say("a level measure of {:g} mL", mL),
                            measure_of(Kind::scoop, "scoop", mL, 0));
    }
    if (liquid) {
        for (const double mL : {500.0, 1000.0, 2000.0, 5000.0}) {
            larger.emplace_back(
                diag::say("a jug of {:g} L with marks every {:g} mL", mL / 1000, mL / 20),
                measure_of(Kind::jug, "jug", mL, mL / 20));
        }
    } else {
        for (const double g : {1000.0, 5000.0, 20'000.0}) {
            job::Measure scale;
            scale.kind = Kind::scale;
            scale.capacity = units::g(g);
            scale.resolution = units::g(g / 1000);
            larger.emplace_back(
                diag::say("a scale to {:g} kg with steps of {:g} g", g / 1000, g / 1000), scale);
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
            return diag::say("{} would do it in {}", name, way.actions);
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
        const diag::Text larger = larger_tool(job, calculation, i);
        out.warning("many-uses", calculation.job->ingredients[i].place,
                    larger.empty() ? diag::say("'{}' takes {} uses of '{}' for one batch", it.name,
                                               maximum->times, maximum->measure)
                                   : diag::say("'{}' takes {} uses of '{}' for one batch; {}",
                                               it.name, maximum->times, maximum->measure, larger),
                    larger.empty() ? "list a larger measure, or mix smaller batches"
                                   : "list such a tool under 'measures'");
    }
}

}  // namespace

diag::Text finer_measures(const job::Job& job, const MixCalculation& calculation,
                          std::size_t ingredient) {
    const Mix& mix = calculation.mix;
    std::vector<std::string> sizes;
    for (const BetterBatch& batch : mix.ingredients[ingredient].better_batches)
        sizes.push_back(
            fmt::format("{:.6g} mL", in_mL(batch.measured) * mix.batches / mix.repeats));
    const diag::Text batches = diag::chained(sizes, "{} or {}");
    diag::Text tools = finer_tools(job, calculation, ingredient);
    if (!tools.empty()) {
        tools = diag::say("list a finer measure under 'measures': {}", tools);
    } else {
        const bool scale = std::ranges::any_of(
            job.measures, [](const auto& it) { return it.kind == job::Measure::Kind::scale; });
        tools = scale ? diag::say("use a scale with finer marks, or make more at once")
                      : diag::say("weigh it, with a scale that reads finely enough");
    }
    if (batches.empty()) return tools;
    if (calculation.job->makes)
        return diag::say("write a batch of {} in place of 'makes', or {}", batches, tools);
    return diag::say("set 'batch' to {}, or {}", batches, tools);
}

void check_measures(const job::Job& job, const MixCalculation& calculation,
                    diag::Diagnostics& out) {
    for (std::size_t i = 0; i < calculation.mix.ingredients.size(); ++i) {
        const Ingredient& it = calculation.mix.ingredients[i];
        const auto& place = calculation.job->ingredients[i].place;
        const bool too_much =
            std::ranges::find(calculation.chosen.too_much, i) != calculation.chosen.too_much.end();
        const auto doubt = doubt_of(job, it, calculation.job->tolerance->fraction);
        if (it.measures.empty() && !too_much && !job.measures.empty()) {
            out.warning("no-measure-for", place,
                        diag::say("nothing under 'measures' can measure '{}', so it is given by "
                                  "weight only",
                                  it.name),
                        it.powder ? "list a spoon or a scale" : "list a jug, a spoon or a scale");
        } else if (!it.within_tolerance) {
            diag::Text what = diag::say(
                "{:.3g} g of '{}' cannot be measured with what is listed: the nearest is {}, "
                "{:.3g} g ({:+.0f} %)",
                in_g(it.mass), it.name, in_words(it), in_g(it.measured_mass), 100 * it.error);
            if (doubt) what = diag::say("{}; and {}", what, in_words(*doubt));
            const diag::Text fix = finer_measures(job, calculation, i);
            if (std::abs(it.error) > calculation.job->tolerance->fraction + far_off)
                out.error("measure-off", place, what, fix);
            else
                out.warning("measure-off", place, what, fix);
        } else if (doubt) {
            out.warning("coarse-scale", place,
                        diag::say("{:.3g} g of '{}' cannot be weighed accurately: {}",
                                  in_g(doubt->mass), it.name, in_words(*doubt)),
                        finer_scale(*doubt));
        }
    }
    check_uses(job, calculation, out);
}

}  // namespace gallipot::plan
