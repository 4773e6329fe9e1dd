#include "domain/plan/mix_planner.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "domain/mixing/solution.hpp"

namespace gallipot::plan {

using mixing::Component;
using mixing::Measuring;
using mixing::Recipe;
using units::in_mL;
using units::Mass;
using units::Range;
using units::Volume;

namespace {

/// How far off what was measured may be: by how finely the tools read, and by how a scooped powder
/// packs.
Range<Mass> spread(const mixing::Tools& tools, const Component& component, const Measuring& way,
                   Mass mass) {
    if (way.steps.empty()) return Range<Mass>::exactly(mass);
    const auto& density = component.density;
    const Mass off = tools.reading_error(way, density.usual);
    if (way.weighed) return {mass - off, mass, mass + off};
    return {(mass - off) * (density.low / density.usual), mass,
            (mass + off) * (density.high / density.usual)};
}

std::vector<MeasureStep> steps(const job::Job& job, const Measuring& way) {
    std::vector<MeasureStep> out;
    for (const auto& step : way.steps) {
        const job::Measure& measure = job.measures[step.measure];
        out.push_back(
            {measure.name, measure.kind, step.times, step.volume, step.weight, measure.unit});
    }
    return out;
}

void describe_ingredients(const job::Job& job, MixCalculation& calculation) {
    for (std::size_t i = 0; i < calculation.recipe.components.size(); ++i) {
        const Component& component = calculation.recipe.components[i];
        const Measuring& way = calculation.chosen.ways[i];
        Ingredient it;
        it.name = component.name;
        if (component.substance != nullptr) it.substance = component.substance->formal;
        it.powder = component.powder();
        it.borate = component.borate();
        it.boron = component.boron;
        it.limited = calculation.job->limits.contains(component.name);
        it.mass = calculation.target[i];
        it.volume = mixing::measured_volume(component, it.mass);
        it.measures = steps(job, way);
        it.measured_mass = calculation.chosen.masses[i];
        it.measured_mass_range = calculation.measured[i];
        it.measured_volume = mixing::measured_volume(component, it.measured_mass);
        it.error = way.ratio - 1;
        it.within_tolerance = way.within_tolerance || way.steps.empty();
        calculation.mix.ingredients.push_back(std::move(it));
    }
}

double fraction(std::span<const Mass> masses, std::size_t ingredient) {
    return masses[ingredient] / mixing::total(masses);
}

double boron_fraction(const Recipe& recipe, std::span<const Mass> masses) {
    double boron = 0;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        boron += masses[i].si() * recipe.components[i].boron;
    }
    return boron / mixing::total(masses).si();
}

/// "1 part to N": what the others have over what it has, counted as the recipe counts.
double parts_to_one(const Recipe& recipe, std::span<const Mass> masses, std::size_t ingredient) {
    const bool by_volume = mixing::by_volume(recipe.basis);
    double others = 0, mine = 0;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const double amount = by_volume
                                  ? mixing::measured_volume(recipe.components[i], masses[i]).si()
                                  : masses[i].si();
        (i == ingredient ? mine : others) += amount;
    }
    return others / mine;
}

/// Where something does not come out right: the nearest sizes of a batch at which all does.
void describe_better_batches(MixCalculation& calculation, const mixing::Tools& tools) {
    if (calculation.chosen.all_within()) return;
    // Where the smallest measure is several times too much, a batch several times as large.
    double largest = 2;
    for (const Ingredient& it : calculation.mix.ingredients)
        largest = std::clamp(1.2 * (1 + it.error), largest, 6.0);
    if (calculation.job->vessel) {
        const Volume full = std::max(calculation.mix.measured, calculation.mix.finished_asked);
        largest = std::min(largest, **calculation.job->vessel / full);
    }
    const auto sizes =
        mixing::nearby_sizes(calculation.recipe, calculation.target, tools,
                             calculation.job->tolerance->fraction, calculation.limits, largest);
    for (std::size_t i = 0; i < calculation.mix.ingredients.size(); ++i) {
        Ingredient& it = calculation.mix.ingredients[i];
        const bool too_much =
            std::ranges::find(calculation.chosen.too_much, i) != calculation.chosen.too_much.end();
        if (it.within_tolerance && !too_much) continue;
        for (const auto& factor : {sizes.smaller, sizes.larger}) {
            if (factor) it.better_batches.push_back({calculation.mix.measured * *factor, *factor});
        }
    }
}

void describe_strength(MixCalculation& calculation) {
    Mix& mix = calculation.mix;
    const auto& masses = calculation.chosen.masses;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        const Component& component = calculation.recipe.components[i];
        if (component.water()) continue;
        Strength it;
        it.asked_w_w = fraction(calculation.target, i);
        it.w_w = fraction(masses, i);
        std::vector<Mass> lightest(masses.size());
        for (std::size_t j = 0; j < masses.size(); ++j) {
            lightest[j] = j == i ? calculation.measured[j].low : calculation.measured[j].high;
        }
        it.w_w_range = {fraction(lightest, i), it.w_w, fraction(calculation.at_worst(i), i)};
        it.w_v = masses[i] / mix.finished;
        it.parts = parts_to_one(calculation.recipe, masses, i);
        mix.strength.emplace(component.name, it);
    }
    mix.boron_w_w = {boron_fraction(calculation.recipe, calculation.borates_at(false)),
                     boron_fraction(calculation.recipe, masses),
                     boron_fraction(calculation.recipe, calculation.borates_at(true))};
    const double per_boron = mixing::boric_acid_per_boron();
    mix.boric_acid_equivalent_w_w = {mix.boron_w_w.low * per_boron, mix.boron_w_w.usual * per_boron,
                                     mix.boron_w_w.high * per_boron};
}

void describe_asked(MixCalculation& calculation) {
    const Recipe& recipe = calculation.recipe;
    const bool borates = std::ranges::any_of(recipe.components, &Component::borate);
    const std::vector<double> amounts = mixing::on_basis(recipe, calculation.target);
    for (std::size_t i = 0; i < amounts.size(); ++i) {
        const Component& component = recipe.components[i];
        if (borates ? !component.borate() : component.water()) continue;
        Asked it;
        it.ingredient = component.name;
        it.basis = recipe.basis;
        const auto& as = calculation.job->ingredients[i].as;
        if (as) it.as = **as;
        double whole = mixing::percent(recipe.basis) ? 100 : 0;
        if (whole == 0) {
            for (const double amount : amounts) whole += amount;
        }
        it.share = amounts[i] / recipe.as_factors[i] / whole;
        it.parts = recipe.basis == job::Basis::percent_w_v ? 1 / it.share : 1 / it.share - 1;
        calculation.mix.asked.push_back(std::move(it));
        if (!borates) break;
    }
}

void describe_dissolving(MixCalculation& calculation) {
    if (calculation.recipe.form != job::Form::liquid && calculation.recipe.form != job::Form::spray)
        return;
    Mix& mix = calculation.mix;
    const mixing::Solution solution(calculation.recipe.components, calculation.strongest());
    mix.never_dissolves = solution.never_clear();
    mix.dissolves_above = solution.clear_from();
    mix.crystals_below = mix.dissolves_above;
    mix.warm_water = mix.never_dissolves ||
                     (mix.dissolves_above && *mix.dissolves_above > mixing::room_temperature);
    mix.borates_together = solution.borates_together();
}

}  // namespace

std::vector<Mass> MixCalculation::at_worst(std::size_t ingredient) const {
    std::vector<Mass> masses(measured.size());
    for (std::size_t i = 0; i < masses.size(); ++i) {
        masses[i] = i == ingredient ? measured[i].high : measured[i].low;
    }
    return masses;
}

std::vector<Mass> MixCalculation::strongest() const {
    std::vector<Mass> masses(measured.size());
    for (std::size_t i = 0; i < masses.size(); ++i) {
        masses[i] = recipe.components[i].powder() ? measured[i].high : measured[i].low;
    }
    return masses;
}

std::vector<Mass> MixCalculation::borates_at(bool heaviest) const {
    std::vector<Mass> masses(measured.size());
    for (std::size_t i = 0; i < masses.size(); ++i) {
        masses[i] = recipe.components[i].borate() == heaviest ? measured[i].high : measured[i].low;
    }
    return masses;
}

std::optional<MixCalculation> calculate(const job::Job& job, const job::Mix& mix,
                                        const Demand& demand, const mixing::Tools& tools,
                                        diag::Diagnostics& out) {
    auto recipe = mixing::read_recipe(job, mix, out);
    if (!recipe) return std::nullopt;
    const std::size_t errors = out.errors();
    auto limits = read_limits(mix, *recipe, out);
    auto batches = plan_batches(mix, demand, *recipe, limits, tools, out);
    if (!batches || out.errors() > errors) return std::nullopt;

    MixCalculation calculation;
    calculation.job = &mix;
    calculation.recipe = std::move(*recipe);
    calculation.limits = std::move(limits);
    calculation.target = std::move(batches->target);
    calculation.chosen = std::move(batches->chosen);
    for (std::size_t i = 0; i < calculation.target.size(); ++i) {
        calculation.measured.push_back(spread(tools, calculation.recipe.components[i],
                                              calculation.chosen.ways[i],
                                              calculation.chosen.masses[i]));
    }
    const auto& components = calculation.recipe.components;
    Mix& it = calculation.mix;
    it.id = mix.id;
    it.batches = batches->count;
    it.repeats = batches->repeats;
    it.fills_per_batch = batches->fills;
    it.needed = demand.volume * (1 + mix.spare->fraction);
    it.containers = demand.containers;
    it.measured = mixing::measured_volume(components, calculation.target);
    it.finished_asked =
        mixing::finished_volume(components, calculation.target, calculation.recipe.form);
    it.mass_asked = mixing::total(calculation.target);
    it.finished =
        mixing::finished_volume(components, calculation.chosen.masses, calculation.recipe.form);
    it.mass = mixing::total(calculation.chosen.masses);
    const double made = in_mL(it.finished) * it.batches, taken = in_mL(demand.volume);
    constexpr double slack = 1e-9;  // equal but for the order in which it was added up
    if (made > taken * (1 + slack)) it.spare_left = it.mass * it.batches * (1 - taken / made);
    describe_ingredients(job, calculation);
    describe_better_batches(calculation, tools);
    describe_strength(calculation);
    describe_asked(calculation);
    describe_dissolving(calculation);
    it.usual = usual_range(mix, it.boric_acid_equivalent_w_w.usual);
    return calculation;
}

}  // namespace gallipot::plan
