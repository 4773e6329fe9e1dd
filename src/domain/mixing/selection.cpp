#include "domain/mixing/selection.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "domain/mixing/solution.hpp"

namespace gallipot::mixing {

using units::Mass;
using units::Volume;

namespace {

constexpr double slack = 1e-9;

/// Mass or volume as measured, whichever the basis counts in.
double counted(const Recipe& recipe, job::Basis basis, std::size_t ingredient, Mass mass) {
    return by_volume(basis) ? measured_volume(recipe.components[ingredient], mass).si() : mass.si();
}

double counted_beside(const Recipe& recipe, job::Basis basis, std::span<const Mass> masses,
                      std::size_t ingredient) {
    double sum = 0;
    for (std::size_t i = 0; i < masses.size(); ++i) {
        if (i != ingredient) sum += counted(recipe, basis, i, masses[i]);
    }
    return sum;
}

/// Percent w/v: the finished volume rises with the ingredient itself, but by less than what the
/// limit would let in, so this closes in on the answer from below and never passes it.
Mass maximum_in_finished(const Recipe& recipe, std::vector<Mass>& masses, const Limit& limit) {
    constexpr int maximum_steps = 200;
    const units::Density allowed = units::g_per_mL(limit.percent / 100);
    Mass maximum;
    for (int step = 0; step < maximum_steps; ++step) {
        masses[limit.ingredient] = maximum;
        const Mass next = finished_volume(recipe.components, masses, recipe.form) * allowed;
        if (next <= maximum * (1 + 1e-12)) break;
        maximum = next;
    }
    return maximum;
}

Wanted wanted(const Component& component, Mass mass, double tolerance, bool round_up = false) {
    return {mass, component.density.usual, component.state, tolerance, std::nullopt, round_up};
}

}  // namespace

double percent_of(const Recipe& recipe, std::span<const Mass> masses, const Limit& limit) {
    const job::Basis basis = limit.on(recipe);
    const std::size_t i = limit.ingredient;
    if (basis == job::Basis::percent_w_v) {
        const Volume finished = finished_volume(recipe.components, masses, recipe.form);
        return 100 * units::in_g_per_mL(masses[i] / finished);
    }
    const double mine = counted(recipe, basis, i, masses[i]);
    return 100 * mine / (mine + counted_beside(recipe, basis, masses, i));
}

Mass maximum_allowed(const Recipe& recipe, std::vector<Mass> masses, const Limit& limit) {
    const job::Basis basis = limit.on(recipe);
    const std::size_t i = limit.ingredient;
    if (basis == job::Basis::percent_w_v) return maximum_in_finished(recipe, masses, limit);
    const double maximum =
        counted_beside(recipe, basis, masses, i) * limit.percent / (100 - limit.percent);
    return by_volume(basis) ? Volume::si(maximum) * recipe.components[i].density.usual
                            : Mass::si(maximum);
}

bool Selection::all_within() const {
    return too_much.empty() && std::ranges::all_of(ways, [](const Measuring& way) {
               return way.within_tolerance || way.steps.empty();
           });
}

Selection select(const Recipe& recipe, std::span<const Mass> target, const Tools& tools,
                 double tolerance, std::span<const Limit> limits, Rounding rounding) {
    Selection out;
    out.ways.reserve(target.size());
    const bool up = rounding == Rounding::up;
    for (std::size_t i = 0; i < target.size(); ++i) {
        const bool limited = std::ranges::find(limits, i, &Limit::ingredient) != limits.end();
        out.ways.push_back(
            limited ? Measuring{}
                    : tools.measure(wanted(recipe.components[i], target[i], tolerance, up)));
        out.masses.push_back(target[i] * out.ways[i].ratio);
    }
    std::vector<bool> settled(limits.size(), false);
    // Each round only lowers what is allowed, so it ends; the bound is for safety.
    for (int round = 0; round < 100 && !std::ranges::all_of(settled, std::identity{}); ++round) {
        for (std::size_t at = 0; at < limits.size(); ++at) {
            const std::size_t i = limits[at].ingredient;
            const Mass maximum = maximum_allowed(recipe, out.masses, limits[at]);
            const bool keeps = out.masses[i] <= maximum * (1 + slack);
            settled[at] = round > 0 && keeps;
            if (settled[at]) continue;
            Wanted want = wanted(recipe.components[i], target[i], tolerance);
            want.at_most = maximum;
            Measuring way = tools.measure(want);
            if (way.steps.empty()) {
                // Nothing to measure it with: then exactly, and no more than is allowed.
                way.ratio = std::min(1.0, maximum / target[i]);
                way.within_tolerance = way.ratio >= 1 - tolerance - slack;
            }
            out.masses[i] = target[i] * way.ratio;
            out.ways[i] = std::move(way);
        }
    }
    for (const Limit& limit : limits) {
        const std::size_t i = limit.ingredient;
        if (!out.ways[i].steps.empty()) continue;
        const Measuring free = tools.measure(wanted(recipe.components[i], target[i], tolerance));
        if (!free.steps.empty()) out.too_much.push_back(i);
    }
    return out;
}

NearbySizes nearby_sizes(const Recipe& recipe, std::span<const Mass> target, const Tools& tools,
                         double tolerance, std::span<const Limit> limits, double largest) {
    const double batch = units::in_mL(measured_volume(recipe.components, target));
    // 1, 2 or 5 times a power of ten, at most a hundredth of the batch.
    const double decade = std::pow(10, std::floor(std::log10(batch / 100)));
    const double step = batch / 100 >= 5 * decade   ? 5 * decade
                        : batch / 100 >= 2 * decade ? 2 * decade
                                                    : decade;
    std::vector<Mass> scaled(target.size());
    // What does not come out by itself does not under a limit either, and is soon found.
    const auto hopeless = [&](std::size_t i) {
        const Measuring way = tools.measure(wanted(recipe.components[i], scaled[i], tolerance));
        return !way.within_tolerance && !way.steps.empty();
    };
    const auto comes_out = [&](double factor) {
        std::ranges::transform(target, scaled.begin(), [&](Mass mass) { return mass * factor; });
        for (std::size_t i = 0; i < scaled.size(); ++i) {
            if (hopeless(i)) return false;
        }
        return select(recipe, scaled, tools, tolerance, limits).all_within();
    };
    NearbySizes out;
    for (double size = std::ceil(batch / step) - 1; size * step >= batch / 2; --size) {
        const double factor = size * step / batch;
        if (comes_out(factor)) {
            out.smaller = factor;
            break;
        }
    }
    for (double size = std::floor(batch / step) + 1; size * step <= batch * largest; ++size) {
        const double factor = size * step / batch;
        if (comes_out(factor)) {
            out.larger = factor;
            break;
        }
    }
    return out;
}

}  // namespace gallipot::mixing
