#include "domain/mixing/amounts.hpp"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <numeric>

#include "domain/mixing/solution.hpp"

namespace gallipot::mixing {

using job::Basis;
using units::Mass;
using units::Volume;

namespace {

/// Shares written with a few decimals need not add up to the last bit.
constexpr double rounding = 1e-6;

double sum(std::span<const double> values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

/// Ingredient per one of what the job states it in, on the basis.
std::optional<double> as_factor(const Component& component, const job::Ingredient& ingredient,
                                Basis basis, diag::Diagnostics& out) {
    if (!ingredient.as) return 1;
    const reference::Substance* as = reference::find_substance(**ingredient.as);
    if (as == nullptr) {
        out.error("unknown-substance", ingredient.as->place,
                  diag::say("unknown substance '{}'", **ingredient.as),
                  "state the strength in a substance known by name");
        return std::nullopt;
    }
    const auto factor = mass_for(component, *as);
    if (!factor) {
        out.error("as-not-held", ingredient.as->place,
                  diag::say("'{}' holds no {}, so its strength cannot be stated in it",
                            component.name, diag::term(as->name)),
                  "name a substance it holds, or another borate when it is one");
        return std::nullopt;
    }
    if (by_volume(basis)) {
        out.error("as-by-volume", ingredient.as->place,
                  "a strength as another substance goes by mass",
                  "use percent w/w, percent w/v or parts by mass");
        return std::nullopt;
    }
    return factor;
}

bool check_amount(const job::Ingredient& ingredient, Basis basis, diag::Diagnostics& out) {
    if (basis == Basis::as_measured) return true;  // every unit's reader wants more than nothing
    if (ingredient.amount.value > 0 && std::isfinite(ingredient.amount.value)) return true;
    out.error("amount-not-positive", ingredient.amount.place,
              percent(basis) ? diag::say("'{}' has percent {:g}, which is not an amount",
                                         ingredient.name, ingredient.amount.value)
                             : diag::say("'{}' has parts {:g}, which is not an amount",
                                         ingredient.name, ingredient.amount.value),
              "give more than 0, or take the ingredient out");
    return false;
}

/// What is left for the rest on a percentage basis, or that the shares make 100.
bool check_shares(const job::Mix& mix, Recipe& recipe, diag::Diagnostics& out) {
    const double given = sum(recipe.amounts);
    if (recipe.rest) {
        const auto& place = mix.ingredients[*recipe.rest].place;
        if (given >= 100 - rounding) {
            out.error("no-room-for-rest", place,
                      diag::say("the other ingredients make {:.6g} % already, so nothing is left "
                                "for '{}'",
                                given, mix.ingredients[*recipe.rest].name),
                      "look the shares up again where the recipe comes from");
            return false;
        }
        recipe.amounts[*recipe.rest] = 100 - given;
        return true;
    }
    if (std::abs(given - 100) > rounding) {
        out.error("shares-not-100", mix.place,
                  diag::say("the shares of '{}' make {:.6g} %, not 100 %, and no ingredient is "
                            "the rest",
                            mix.id, given),
                  "look the shares up again; where one only fills up, write rest for that");
        return false;
    }
    return true;
}

/// Percent w/v: grams in 100 mL of the finished mix.
constexpr double finished_mL = 100;

Volume volume_with_rest(const Recipe& recipe, std::vector<Mass>& masses, Mass rest) {
    masses[*recipe.rest] = rest;
    return finished_volume(recipe.components, masses, recipe.form);
}

/// Fills up with the rest. The volume rises with every gram, and nearly in proportion. False when
/// the others leave no room.
bool fill_up(const Recipe& recipe, std::vector<Mass>& masses) {
    const double goal = finished_mL * 1e-6;
    const auto over = [&](double rest) {
        return volume_with_rest(recipe, masses, Mass::si(rest)).si() - goal;
    };
    double high = goal * recipe.components[*recipe.rest].density.high.si();
    const double minimum = over(0);
    if (minimum >= 0) return false;
    while (over(high) <= 0) high *= 2;
    std::uintmax_t steps = 100;  // far more than it takes
    const auto [below, above] = boost::math::tools::toms748_solve(
        over, 0.0, high, minimum, over(high), boost::math::tools::eps_tolerance<double>(), steps);
    masses[*recipe.rest] = Mass::si(std::midpoint(below, above));
    return true;
}

bool check_finished(const job::Mix& mix, Recipe& recipe, diag::Diagnostics& out) {
    if (!recipe.rest) {
        out.error("no-rest", mix.place,
                  diag::say("'{}' is in percent w/v, and no ingredient is the rest that it is "
                            "filled up with",
                            mix.id),
                  "write rest for the one that fills it up");
        return false;
    }
    std::vector<Mass> masses(recipe.components.size());
    for (std::size_t i = 0; i < masses.size(); ++i) masses[i] = units::g(recipe.amounts[i]);
    if (fill_up(recipe, masses)) {
        recipe.amounts[*recipe.rest] = units::in_g(masses[*recipe.rest]);
        return true;
    }
    out.error("no-room-for-rest", mix.ingredients[*recipe.rest].place,
              diag::say("the other ingredients fill 100 mL already, so nothing is left for '{}'",
                        mix.ingredients[*recipe.rest].name),
              "look the shares up again where the recipe comes from");
    return false;
}

}  // namespace

std::optional<Recipe> read_recipe(const job::Job& job, const job::Mix& mix,
                                  diag::Diagnostics& out) {
    Recipe recipe{.form = *mix.form, .basis = *mix.basis};
    bool good = true;
    for (const auto& ingredient : mix.ingredients) {
        auto component = resolve(job, ingredient, *mix.form, out);
        if (ingredient.rest) {
            if (recipe.rest || !percent(recipe.basis)) {
                out.error("misplaced-rest", ingredient.place,
                          recipe.rest ? diag::say("'{}' is a second rest", ingredient.name)
                                      : diag::say("'{}' is the rest, but parts have no whole to "
                                                  "fill up",
                                                  ingredient.name),
                          recipe.rest ? "let only one ingredient be the rest"
                                      : "write how many parts it is");
                good = false;
            }
            recipe.rest = recipe.components.size();
        } else {
            good = check_amount(ingredient, recipe.basis, out) && good;
        }
        std::optional<double> factor;
        if (component) factor = as_factor(*component, ingredient, recipe.basis, out);
        good = good && factor.has_value();
        recipe.components.push_back(std::move(component).value_or(Component{}));
        recipe.as_factors.push_back(factor.value_or(1));
        if (recipe.basis == Basis::as_measured) {
            const units::Density density = recipe.components.back().density.usual;
            recipe.amounts.push_back(units::in_g(
                ingredient.mass.value_or(ingredient.volume.value_or(Volume{}) * density)));
        } else {
            recipe.amounts.push_back(ingredient.rest ? 0 : *ingredient.amount * factor.value_or(1));
        }
    }
    if (!good) return std::nullopt;
    if (recipe.basis == Basis::percent_w_v) {
        if (!check_finished(mix, recipe, out)) return std::nullopt;
    } else if (percent(recipe.basis) && !check_shares(mix, recipe, out)) {
        return std::nullopt;
    }
    return recipe;
}

std::vector<Mass> proportions(const Recipe& recipe) {
    std::vector<Mass> masses(recipe.components.size());
    for (std::size_t i = 0; i < masses.size(); ++i) {
        masses[i] = by_volume(recipe.basis)
                        ? units::mL(recipe.amounts[i]) * recipe.components[i].density.usual
                        : units::g(recipe.amounts[i]);
    }
    return masses;
}

std::vector<double> on_basis(const Recipe& recipe, std::span<const Mass> masses) {
    std::vector<double> amounts(masses.size());
    for (std::size_t i = 0; i < masses.size(); ++i) {
        amounts[i] = by_volume(recipe.basis) ? measured_volume(recipe.components[i], masses[i]).si()
                                             : masses[i].si();
    }
    double scale = 0;
    if (recipe.basis == Basis::percent_w_v) {
        // kg per m3 is g per L; percent w/v is g per 100 mL.
        scale = 0.1 / finished_volume(recipe.components, masses, recipe.form).si();
    } else {
        scale = (percent(recipe.basis) ? 100 : sum(recipe.amounts)) / sum(amounts);
    }
    for (double& amount : amounts) amount *= scale;
    return amounts;
}

Volume measured_volume(const Component& component, Mass mass) {
    return mass / component.density.usual;
}

Volume measured_volume(std::span<const Component> components, std::span<const Mass> masses) {
    Volume volume;
    for (std::size_t i = 0; i < components.size(); ++i) {
        volume += measured_volume(components[i], masses[i]);
    }
    return volume;
}

Mass total(std::span<const Mass> masses) {
    return std::accumulate(masses.begin(), masses.end(), Mass{});
}

}  // namespace gallipot::mixing
