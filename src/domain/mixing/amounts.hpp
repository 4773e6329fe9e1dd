#pragma once

#include <optional>
#include <span>
#include <vector>

#include "domain/mixing/component.hpp"

/// From what a recipe asks, on its basis, to masses; and back.
namespace gallipot::mixing {

/// What a mix asks for, every ingredient resolved.
struct Recipe {
    job::Form form = job::Form::liquid;
    job::Basis basis = job::Basis::percent_w_w;
    std::vector<Component> components = {};
    /// On the basis, in terms of the ingredient itself (`as` is converted): parts or percent, the
    /// rest's worked out. As measured: grams, a volume as it usually packs.
    std::vector<double> amounts = {};
    std::vector<double> as_factors = {};  ///< of the ingredient for one of what the job states
    std::optional<std::size_t> rest = {};
};

constexpr bool percent(job::Basis basis) {
    return basis == job::Basis::percent_w_w || basis == job::Basis::percent_w_v ||
           basis == job::Basis::percent_v_v;
}
/// Counted in volumes as scooped and poured.
constexpr bool by_volume(job::Basis basis) {
    return basis == job::Basis::parts_by_volume || basis == job::Basis::percent_v_v;
}

/// Resolves a mix. Errors, each with its place: an ingredient that cannot be resolved; a part or
/// percentage that is not above 0; shares that do not make 100 % without a rest, or leave nothing
/// for it; a rest among parts; percent w/v with no rest to fill up with, or with none left over; a
/// strength stated in a substance that the ingredient does not hold, or by volume.
std::optional<Recipe> read_recipe(const job::Job& job, const job::Mix& mix, diag::Diagnostics& out);

/// One mix's worth of masses in the recipe's proportions: for percent w/v 100 mL of the finished
/// mix, for the others 100 g or 100 mL as measured, or the parts in g or mL; as measured: as it is
/// written, once.
std::vector<units::Mass> proportions(const Recipe& recipe);

/// The inverse: what the masses are on the recipe's basis. Parts are scaled to the recipe's sum.
std::vector<double> on_basis(const Recipe& recipe, std::span<const units::Mass> masses);

/// As scooped and poured, a powder as it usually packs.
units::Volume measured_volume(const Component& component, units::Mass mass);
units::Volume measured_volume(std::span<const Component> components,
                              std::span<const units::Mass> masses);
units::Mass total(std::span<const units::Mass> masses);

}  // namespace gallipot::mixing
