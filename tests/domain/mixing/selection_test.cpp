#include "domain/mixing/selection.hpp"

#include <cmath>

#include "catch_all.hpp"

#include "domain/mixing/solution.hpp"
#include "recipes.hpp"

using namespace gallipot;
using namespace gallipot::mixing;
using namespace gallipot::tests;
using job::Basis;
using job::Form;
using job::Measure;
using units::in_g;

namespace {

Measure scoop(double mL) {
    Measure it;
    it.volume = units::mL(mL);
    return it;
}
Measure jug(double mL, double marks) {
    Measure it = scoop(mL);
    it.kind = Measure::Kind::jug;
    it.marks = units::mL(marks);
    return it;
}
Measure scale(double g, double marks) {
    Measure it;
    it.kind = Measure::Kind::scale;
    it.capacity = units::g(g);
    it.resolution = units::g(marks);
    return it;
}

std::vector<units::Mass> grams_in_all(const Recipe& recipe, double grams) {
    auto masses = proportions(recipe);
    const double factor = grams / in_g(total(masses));
    for (auto& mass : masses) mass *= factor;
    return masses;
}

}  // namespace

TEST_CASE("the others' rounding down does not carry a limited ingredient above its limit") {
    // 100 g: 1 g of borax (1.18 mL), 99 g of water. The jug can only give 95 mL, 4 % less, at
    // which 1 g would be 1.04 %.
    const Recipe recipe =
        recipe_of({}, Form::liquid, Basis::percent_w_w, {{"borax", 1}, {"water", rest}});
    const auto target = grams_in_all(recipe, 100);
    const std::vector<Limit> limits = {{0, 1.0}};
    const Tools tools(std::vector{jug(95, 95), scale(10, 0.1)});
    // The scale goes to 10 g, so ten weighings would do for water; the jug is one action.
    const Selection chosen = select(recipe, target, tools, 0.05, limits);
    CHECK(in_g(chosen.masses[1]) == Approx(95 * 0.9982071));
    CHECK(in_g(chosen.masses[0]) == Approx(0.9));
    CHECK(percent_of(recipe, chosen.masses, limits[0]) <= 1.0);
    CHECK(select(recipe, target, tools, 0.05, {}).masses[0].si() == Approx(1e-3));
}

TEST_CASE("what is allowed is where the limit is just reached") {
    RandomRecipes recipes(11);
    int finished = 0;
    for (int round = 0; round < 1000; ++round) {
        const Recipe recipe = recipes.next();
        if (!percent(recipe.basis)) continue;
        if (recipe.basis == Basis::percent_w_v && recipe.form == Form::dry) continue;
        auto masses = proportions(recipe);
        const Limit limit{0, recipe.amounts[0] * recipes.real(0.5, 1.5)};
        masses[0] = maximum_allowed(recipe, masses, limit);
        INFO("round " << round);
        CHECK(percent_of(recipe, masses, limit) == Approx(limit.percent).epsilon(1e-9));
        finished += recipe.basis == Basis::percent_w_v;
    }
    CHECK(finished > 50);
}

TEST_CASE("a limit is never passed, whatever there is to measure with") {
    RandomRecipes recipes(5);
    int limited = 0, impossible = 0;
    for (int round = 0; round < 3000; ++round) {
        const Recipe recipe = recipes.next();
        if (!percent(recipe.basis)) continue;
        if (recipe.basis == Basis::percent_w_v && recipe.form == Form::dry) continue;
        const double sizes[] = {15, 5, 2.5, 1.25, 20, 60, 250};
        std::vector<Measure> measures;
        for (int i = recipes.whole(0, 5); i > 0; --i) {
            measures.push_back(scoop(sizes[recipes.whole(0, 6)]));
        }
        if (recipes.whole(0, 1)) measures.push_back(jug(500, 25));
        if (recipes.whole(0, 2) == 0) measures.push_back(scale(2000, recipes.whole(1, 5)));
        // The limit near what is asked, on up to three ingredients.
        std::vector<Limit> limits;
        for (std::size_t i = 0; i < std::min<std::size_t>(3, recipe.components.size() - 1); ++i) {
            limits.push_back({i, recipe.amounts[i] * recipes.real(0.8, 1.1)});
        }
        const auto target = grams_in_all(recipe, recipes.real(20, 2000));
        const Selection chosen = select(recipe, target, Tools(measures), 0.05, limits);
        INFO("round " << round);
        for (const Limit& limit : limits) {
            ++limited;
            CHECK(percent_of(recipe, chosen.masses, limit) <= limit.percent * (1 + 1e-8));
        }
        for (const std::size_t i : chosen.too_much) {
            ++impossible;
            CHECK(chosen.ways[i].steps.empty());
        }
        // Others are not held back.
        const Selection free = select(recipe, target, Tools(measures), 0.05, {});
        for (std::size_t i = limits.size(); i < target.size(); ++i) {
            CHECK(chosen.masses[i] == free.masses[i]);
        }
    }
    CHECK(limited > 1000);
    CHECK(impossible > 20);
}

TEST_CASE("batches at which everything comes out right are offered") {
    // 1.6 mL of borax on spoons of 1.25 mL is 22 % off; 1.25 or 2.5 mL would do.
    const Recipe recipe =
        recipe_of({}, Form::dry, Basis::parts_by_volume, {{"borax", 1}, {"flour", 1}});
    const Tools tools(std::vector{scoop(1.25)});
    std::vector<units::Mass> target = {units::mL(1.6) * recipe.components[0].density.usual,
                                       units::mL(1.6) * recipe.components[1].density.usual};
    CHECK_FALSE(select(recipe, target, tools, 0.05, {}).all_within());
    const NearbySizes sizes = nearby_sizes(recipe, target, tools, 0.05, {}, 2);
    REQUIRE(sizes.smaller);
    REQUIRE(sizes.larger);
    // 1.25/0.95 and 2.5/1.05 mL, on round batches of 0.02 mL.
    CHECK(*sizes.smaller * 1.6 == Approx(1.31).margin(0.011));
    CHECK(*sizes.larger * 1.6 == Approx(2.39).margin(0.011));
    for (const double factor : {*sizes.smaller, *sizes.larger}) {
        auto scaled = target;
        for (auto& mass : scaled) mass *= factor;
        CHECK(select(recipe, scaled, tools, 0.05, {}).all_within());
        // A round volume.
        const double steps = factor * 3.2 / 0.02;
        CHECK(steps == Approx(std::round(steps)));
    }
    CHECK_FALSE(nearby_sizes(recipe, target, tools, 0.05, {}, 1.2).larger);
}

TEST_CASE("the nearest batch sizes are the nearest of a plain search") {
    RandomRecipes recipes(3);
    int offered = 0;
    for (int round = 0; round < 200; ++round) {
        const Recipe recipe = recipes.next();
        const Tools tools(std::vector{scoop(5), scoop(2.5), jug(250, 25)});
        const auto target = grams_in_all(recipe, recipes.real(20, 150));
        const NearbySizes sizes = nearby_sizes(recipe, target, tools, 0.05, {}, 2);
        const auto comes_out = [&](double factor) {
            auto scaled = target;
            for (auto& mass : scaled) mass *= factor;
            return select(recipe, scaled, tools, 0.05, {}).all_within();
        };
        if (sizes.larger) {
            ++offered;
            CHECK(comes_out(*sizes.larger));
        }
        if (sizes.smaller) {
            ++offered;
            CHECK(comes_out(*sizes.smaller));
        }
        // Nothing nearer by more than a step of the grid of batches (a hundredth) was passed over.
        const double batch = units::in_mL(measured_volume(recipe.components, target));
        const double decade = std::pow(10, std::floor(std::log10(batch / 100)));
        for (const double unit : {1.0, 2.0, 5.0}) {
            if (unit * decade > batch / 100 || unit * decade * 2.6 < batch / 100) continue;
            const double step = unit * decade;
            if (unit == 1 && 2 * decade <= batch / 100) continue;
            if (unit == 2 && 5 * decade <= batch / 100) continue;
            for (double size = std::floor(batch / step) + 1; size * step < batch * 2; ++size) {
                if (sizes.larger && size * step / batch > *sizes.larger - 1e-9) break;
                CHECK_FALSE(comes_out(size * step / batch));
            }
        }
    }
    CHECK(offered > 50);
}

TEST_CASE("nothing to measure with: exactly what is asked, or what the limit allows") {
    const Recipe recipe =
        recipe_of({}, Form::liquid, Basis::percent_w_w, {{"borax", 1}, {"water", rest}});
    const auto target = grams_in_all(recipe, 100);
    const Tools nothing(std::vector<Measure>{});
    const auto way = [&](double percent) {
        return select(recipe, target, nothing, 0.05, std::vector<Limit>{{0, percent}}).ways[0];
    };
    CHECK(way(2).ratio == 1);
    CHECK(way(2).within_tolerance);
    // 1 g beside 99 g of water may be 0.97 % or 0.90 %: 3 and 10 % less than asked.
    CHECK(way(0.97).ratio == Approx(0.97).epsilon(1e-3));
    CHECK(way(0.97).within_tolerance);
    CHECK(way(0.90).ratio == Approx(0.90).epsilon(2e-3));
    CHECK_FALSE(way(0.90).within_tolerance);
}

TEST_CASE("batches are offered in round steps: 1, 2 or 5 of the last place but one") {
    struct Case {
        double batch, smaller, larger;  // mL
    };
    const auto c = GENERATE(values<Case>({{104.7, 104, 105},
                                          {206.5, 206, 208},
                                          {250.5, 250, 252},
                                          {499.5, 498, 500},
                                          {500.5, 500, 505},
                                          {510.5, 510, 515},
                                          {550.5, 550, 555},
                                          {1055, 1050, 1060}}));
    const Recipe recipe = recipe_of({}, Form::liquid, Basis::parts_by_mass, {{"water", 1}});
    const auto water = recipe.components[0].density.usual;
    const std::vector<units::Mass> target{units::mL(c.batch) * water};
    // With nothing to measure with every size will do.
    const auto sizes = nearby_sizes(recipe, target, Tools(std::vector<Measure>{}), 0.05, {}, 2);
    INFO(c.batch);
    REQUIRE(sizes.smaller);
    REQUIRE(sizes.larger);
    CHECK(*sizes.smaller * c.batch == Approx(c.smaller));
    CHECK(*sizes.larger * c.batch == Approx(c.larger));
}

TEST_CASE("batches are sought down to half and up to the largest, both included") {
    const Recipe recipe = recipe_of({}, Form::liquid, Basis::parts_by_mass, {{"water", 1}});
    const auto water = recipe.components[0].density.usual;
    const auto sizes = [&](double batch, double spoon, double largest) {
        const std::vector<units::Mass> target{units::mL(batch) * water};
        return nearby_sizes(recipe, target, Tools(std::vector{scoop(spoon)}), 1e-6, {}, largest);
    };
    CHECK(sizes(128, 64, 1.5).smaller == Approx(0.5));
    CHECK(sizes(128, 192, 1.5).larger == Approx(1.5));
    CHECK_FALSE(sizes(128, 192, 1.49).larger);
    CHECK_FALSE(sizes(128, 192, 1.5).smaller);
}

TEST_CASE("a limit counts every other ingredient, wherever the limited one stands") {
    const Recipe recipe = recipe_of({}, Form::liquid, Basis::percent_w_w,
                                    {{"sugar", 20}, {"water", rest}, {"borax", 2}});
    const auto masses = grams_in_all(recipe, 100);
    CHECK(percent_of(recipe, masses, Limit{2, 2}) == Approx(2));
    // 98 g of the others, and as much borax as makes 2 % beside them.
    CHECK(in_g(maximum_allowed(recipe, masses, {2, 2})) == Approx(2));
}

TEST_CASE("each limit that nothing fits under is told, whatever came of those before it") {
    const Recipe recipe = recipe_of({}, Form::liquid, Basis::percent_w_w,
                                    {{"sugar", 42.25}, {"borax", 4.25}, {"water", rest}});
    const auto target = grams_in_all(recipe, 100);
    const Tools tools(std::vector{scoop(5), jug(100, 1)});
    // Ten spoons of sugar stay below 60 %; one spoon of borax, 4.25 g, is above 3 %.
    const std::vector<Limit> limits{{0, 60}, {1, 3}};
    CHECK(select(recipe, target, tools, 0.05, limits).too_much == std::vector<std::size_t>{1});
}
