#pragma once

#include <span>
#include <vector>

#include "domain/mixing/amounts.hpp"
#include "domain/mixing/measuring.hpp"

/// Measures for all ingredients of a batch together, because a limit is a share of the whole.
namespace gallipot::mixing {

/// Never more than this percentage of an ingredient, in terms of the ingredient, on a basis of
/// percent: the recipe's own, or the one that the limit names.
struct Limit {
    std::size_t ingredient = 0;
    double percent = 0;
    std::optional<job::Basis> basis = {};  ///< none: the recipe's

    [[nodiscard]] job::Basis on(const Recipe& recipe) const { return basis.value_or(recipe.basis); }
};

/// What the ingredient is, in percent on the basis of the limit.
double percent_of(const Recipe& recipe, std::span<const units::Mass> masses, const Limit& limit);

/// The most of the ingredient that keeps its limit while the others stay as they are.
units::Mass maximum_allowed(const Recipe& recipe, std::vector<units::Mass> masses,
                            const Limit& limit);

struct Selection {
    std::vector<Measuring> ways;        ///< by ingredient
    std::vector<units::Mass> masses;    ///< as measured that way; as asked where no tool fits
    std::vector<std::size_t> too_much;  ///< limited ingredients whose smallest measure is too much

    [[nodiscard]] bool all_within() const;
};

/// The others are measured first; what is limited then takes as much as its limit allows beside
/// them, so that not even their rounding down can carry it above. Several limited ingredients are
/// tightened in turn until all limits hold. Rounding up keeps what has no limit from coming out
/// below what is asked.
enum class Rounding { nearest, up };
Selection select(const Recipe& recipe, std::span<const units::Mass> target, const Tools& tools,
                 double tolerance, std::span<const Limit> limits,
                 Rounding rounding = Rounding::nearest);

/// Sizes of a batch near this one at which every ingredient comes out within tolerance, as factors:
/// the largest below 1 and the smallest above 1, from one half to `largest`. Batches of round
/// volumes are tried, in steps of about one hundredth of the batch.
struct NearbySizes {
    std::optional<double> smaller, larger;
};
NearbySizes nearby_sizes(const Recipe& recipe, std::span<const units::Mass> target,
                         const Tools& tools, double tolerance, std::span<const Limit> limits,
                         double largest);

}  // namespace gallipot::mixing
