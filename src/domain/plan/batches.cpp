#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "domain/mixing/solution.hpp"
#include "domain/plan/mix_planner.hpp"

namespace gallipot::plan {

using mixing::Recipe;
using units::in_mL;
using units::Mass;
using units::Volume;

namespace {

/// Equal to within what adding up in another order may change.
constexpr double slack = 1e-9;

/// Sanity limit; catches slips of the unit.
constexpr double maximum_batches = 1000;

/// From the recipe's proportions to what is wanted in all: as measured when `batch` says so,
/// finished when `makes` does, else so that the finished volume meets the demand and the spare.
std::optional<double> scale(const job::Mix& mix, const Demand& demand, Volume measured,
                            Volume finished, diag::Diagnostics& out) {
    if (mix.batch) return **mix.batch / measured;
    if (mix.batch_times) return **mix.batch_times;
    if (mix.makes) return **mix.makes / finished;
    const Volume wanted = demand.volume * (1 + mix.spare->fraction);
    if (wanted > Volume{}) return wanted / finished;
    // Not in use yet: the rest of the job can be done all the same.
    out.warning("no-amount", mix.place,
                diag::say("no station takes any of '{}' and it has no 'batch', so nothing says "
                          "how much to make: it is left out of the papers",
                          mix.id),
                "name it at a station, give a 'batch', or take it out");
    return std::nullopt;
}

bool vessel_can_do(const job::Mix& mix, const Demand& demand, double batches,
                   diag::Diagnostics& out) {
    const Volume vessel = **mix.vessel;
    if (demand.largest != nullptr && vessel < *demand.largest->fill) {
        out.error("vessel-too-small", mix.vessel->place,
                  diag::say("a vessel of {:.4g} mL is smaller than one '{}' of {:.4g} mL",
                            in_mL(vessel), demand.largest->id, in_mL(*demand.largest->fill)),
                  "give the vessel it is really mixed in");
        return false;
    }
    if (batches > maximum_batches) {
        out.error(
            "too-many-batches", mix.vessel->place,
            diag::say("a vessel of {:.4g} mL would take {:.4g} batches", in_mL(vessel), batches),
            "use a larger vessel, or make less");
        return false;
    }
    return true;
}

/// How many containers so much fills, station by station.
int filled_by(Volume volume, const Demand& demand) {
    int filled = 0;
    for (const auto& [count, fill] : demand.fills) {
        const double many = std::floor(volume / fill + slack);
        if (many < count) return filled + int(many);
        filled += count;
        volume -= fill * count;
    }
    return filled;
}

}  // namespace

const diag::Place* size_asked(const job::Mix& mix) {
    if (mix.batch) return &mix.batch->place;
    if (mix.batch_times) return &mix.batch_times->place;
    return mix.makes ? &mix.makes->place : nullptr;
}

std::optional<Batches> plan_batches(const job::Mix& mix, const Demand& demand, const Recipe& recipe,
                                    std::span<const mixing::Limit> limits,
                                    const mixing::Tools& tools, diag::Diagnostics& out) {
    const std::vector<Mass> once = mixing::proportions(recipe);
    // Heaped powder stands higher before it dissolves, a dry mix settles: both must fit.
    const auto fullest = [&](std::span<const Mass> masses) {
        return std::max(mixing::measured_volume(recipe.components, masses),
                        mixing::finished_volume(recipe.components, masses, recipe.form));
    };
    const Volume measured = mixing::measured_volume(recipe.components, once);
    const Volume finished = mixing::finished_volume(recipe.components, once, recipe.form);
    const auto factor = scale(mix, demand, measured, finished, out);
    if (!factor) return std::nullopt;
    Batches batches;
    if (mix.vessel) {
        const double needed = std::ceil(fullest(once) * *factor / **mix.vessel - slack);
        if (!vessel_can_do(mix, demand, needed, out)) return std::nullopt;
        batches.count = int(std::max(needed, 1.0));
    }
    const bool to_suffice = size_asked(mix) == nullptr;
    auto rounding = mixing::Rounding::nearest;
    double more = 1;
    Volume made;
    // Where the smallest measure is more than the vessel holds, more batches do not help: then they
    // stay as they were, and check_mix tells.
    const int first_count = batches.count;
    int splits_left = mix.vessel ? 4 : 0;
    // One step more of some measure at a time: a few rounds do.
    constexpr int maximum_rounds = 30;
    for (int round = 0; round < maximum_rounds; ++round) {
        batches.target = once;
        for (Mass& mass : batches.target) mass *= *factor * more / batches.count;
        batches.chosen = mixing::select(recipe, batches.target, tools, mix.tolerance->fraction,
                                        limits, rounding);
        const auto& masses = batches.chosen.masses;
        const Volume one = mixing::finished_volume(recipe.components, masses, recipe.form);
        if (splits_left > 0 && one > **mix.vessel * (1 + slack)) {
            const double needed = std::ceil(batches.count * (one / **mix.vessel));
            if (needed > maximum_batches) splits_left = 1;
            const bool last = --splits_left == 0;
            batches.count = last ? first_count : std::max(batches.count + 1, int(needed));
            continue;
        }
        made = one * batches.count;
        if (!to_suffice || made >= demand.volume * (1 - slack)) break;
        if (rounding == mixing::Rounding::up) more *= demand.volume / made * (1 + slack);
        rounding = mixing::Rounding::up;
    }
    batches.fills = filled_by(made / batches.count, demand);
    if (!to_suffice && made > Volume{}) {
        const double repeats = std::ceil(demand.volume / made - slack);
        if (repeats * batches.count > maximum_batches) {
            out.error("too-many-batches", *size_asked(mix),
                      diag::say("the batch would have to be made {:.4g} times", repeats),
                      diag::say("leave '{}' out, so that it is worked out",
                                std::string(mix.makes ? "makes" : "batch")));
            return std::nullopt;
        }
        batches.repeats = int(std::max(repeats, 1.0));
        batches.count *= batches.repeats;
    }
    return batches;
}

}  // namespace gallipot::plan
