#pragma once

#include <random>

#include "catch_all.hpp"

#include "domain/mixing/amounts.hpp"

/// Recipes for tests, made without a job file.
namespace gallipot::tests {

struct Asked {
    const char* name;
    double amount = 0;  ///< below 0: the rest
    const char* as = nullptr;
};
inline constexpr double rest = -1;

inline job::Mix mix_of(job::Form form, job::Basis basis, const std::vector<Asked>& all) {
    job::Mix mix;
    mix.id = "test";
    mix.form.value = form;
    mix.basis.value = basis;
    mix.tolerance.value = units::Share::percent(5);
    mix.spare.value = units::Share::percent(10);
    int line = 10;
    for (const Asked& target : all) {
        job::Ingredient it;
        it.name = target.name;
        it.place.line = line;
        it.place.column = 5;
        it.rest = target.amount < 0;
        it.amount = {target.amount, {nullptr, line, 12, 1}};
        if (target.as != nullptr) it.as = diag::At<std::string>{target.as, {nullptr, line, 20, 1}};
        mix.ingredients.push_back(it);
        ++line;
    }
    return mix;
}

inline mixing::Recipe recipe_of(const job::Job& job, job::Form form, job::Basis basis,
                                const std::vector<Asked>& all) {
    diag::Diagnostics out;
    const auto recipe = mixing::read_recipe(job, mix_of(form, basis, all), out);
    INFO(diag::print(out));
    REQUIRE(recipe);
    return *recipe;
}

/// The code and line of the only error, "none" when there is none.
inline std::string only_error(const diag::Diagnostics& out) {
    if (out.errors() == 0) return "none";
    if (out.errors() > 1) return diag::print(out);
    const auto first = out.in_order().front();
    CHECK_FALSE(first.hint.english().empty());
    return first.code + ":" + std::to_string(first.place.line);
}

/// A recipe of random sense: powders and liquids the table knows, on any basis that fits.
class RandomRecipes {
  public:
    explicit RandomRecipes(unsigned seed) : random_(seed) {}

    int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
    double real(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random_);
    }

    /// A shelf on which everything the recipes name can be found.
    static job::Job shelf() {
        job::Job job;
        job::Supply flour;
        flour.name = "rice flour";
        flour.density = diag::At<units::Range<units::Density>>{
            {units::g_per_mL(0.5), units::g_per_mL(0.6), units::g_per_mL(0.7)}, {}};
        job.supplies.emplace("rice flour", flour);
        return job;
    }

    mixing::Recipe next() {
        diag::Diagnostics out;
        const auto recipe = mixing::read_recipe(shelf(), next_mix(), out);
        INFO(diag::print(out));
        REQUIRE(recipe);
        return *recipe;
    }

    job::Mix next_mix() {
        static const char* const powders[] = {
            "borax", "borax pentahydrate", "boric acid", "disodium octaborate",
            "sugar", "icing sugar",        "flour",      "baking soda"};
        static const char* const others[] = {"honey", "glycerol", "corn syrup", "peanut butter"};
        const auto basis = static_cast<job::Basis>(whole(0, 4));
        const auto form = static_cast<job::Form>(whole(0, 3));
        std::vector<Asked> all;
        std::vector<int> taken(8, 0);
        const int count = whole(1, 4);
        for (int i = 0; i < count; ++i) {
            const int which = whole(0, 7);
            if (taken[which]++ > 0) continue;
            // Small enough that four of them leave room for the rest on every basis.
            all.push_back({powders[which], real(0.1, mixing::percent(basis) ? 15 : 5)});
        }
        if (whole(0, 2) == 0) all.push_back({others[whole(0, 3)], real(0.5, 10)});
        const bool dry = form == job::Form::dry;
        if (mixing::percent(basis)) {
            all.push_back({dry ? (taken[6] > 0 ? "rice flour" : "flour") : "water", rest});
        } else {
            all.push_back({dry ? "rice flour" : "water", real(1, 20)});
        }
        return mix_of(form, basis, all);
    }

  private:
    std::mt19937 random_;
};

}  // namespace gallipot::tests
