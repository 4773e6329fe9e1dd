#include <cmath>
#include <string>
#include <vector>

#include "planned.hpp"

// Ten recipes as they stand in kitchens, each typed as it is found and planned at once. Amounts are
// worked out by hand: US teaspoon 4.92892 mL, tablespoon 14.7868 mL, cup 236.588 mL, fluid ounce
// 29.5735 mL, gallon 3785.41 mL (NIST Handbook 44, appendix C), ounce 28.3495 g, pound 453.592 g;
// Australian tablespoon 20 mL, metric cup 250 mL (Standards Australia); times the density of each
// as it is usually scooped or poured (reference/borates.cpp, foods.cpp).

using namespace gallipot;
using namespace gallipot::tests;
using units::in_g;
using units::in_mL;

namespace {

struct Kitchen {
    std::string name, region, form, ingredients;
    std::vector<double> grams;  ///< in their order
    std::string active;
    double percent = 0;  ///< of the active, by mass
};

std::string job_of(const Kitchen& it, const std::string& more) {
    return "title: Test kitchen\nprepared: 2027-03-02\nhelp: { region: " + it.region +
           " }\nmeasures: [1 cup, 1 tbsp, 1 tsp, { jug: 1 L, marks: 50 mL }, { scale: 5 kg, marks: "
           "1 "
           "g }]\nmixes:\n  m: { title: M, against: ants, form: " +
           it.form + ", ingredients: { " + it.ingredients + " }" + more +
           " }\nstations: [{ id: C1, place: Yard, control: true }]\n";
}

const std::vector<Kitchen>& recipes() {
    static const std::vector<Kitchen> all = {
        // 118.294 x 0.845; 22.1801 x 0.85; 354.882 x 0.9982071: 473.06 g in all.
        {"syrup with half a cup of sugar",
         "US",
         "liquid",
         "sugar: 1/2 cup, borax: 1 1/2 tbsp, water: 1 1/2 cups",
         {99.958, 18.853, 354.246},
         "borax",
         3.9854},
        // 4.92892 x 0.80; 49.2892 x 0.845; 473.176 x 0.9982071: 517.92 g.
        {"a teaspoon of boric acid",
         "US",
         "liquid",
         "boric acid: 1 tsp, sugar: 10 tsp, water: 2 cups",
         {3.9431, 41.649, 472.328},
         "boric acid",
         0.76134},
        // 59.147 x 0.85 and x 0.51: 80.44 g.
        {"equal parts, dry",
         "US",
         "dry",
         "borax: 1/4 cup, powdered sugar: 1/4 cup",
         {50.275, 30.165},
         "borax",
         62.500},
        // 29.5735 x 1.091 and x 1.437; 2.46446 x 0.85: 76.857 g.
        {"paste with peanut butter and honey",
         "US",
         "paste",
         "peanut butter: 2 tbsp, honey: 2 tbsp, borax: 1/2 tsp",
         {32.265, 42.497, 2.0948},
         "borax",
         2.7256},
        // 400 x 0.9982071: 504.28 g.
        {"by weight, with a jug of water",
         "AU",
         "liquid",
         "sugar: 100 g, water: 400 mL, boric acid: 5 g",
         {100, 399.283, 5},
         "boric acid",
         0.99151},
        // 20 x 0.85, 250 x 0.845, 750 x 0.9982071: 976.91 g.
        {"with Australian spoons",
         "AU",
         "liquid",
         "borax: 1 tbsp, sugar: 1 cup, water: 3 cups",
         {17.0, 211.25, 748.655},
         "borax",
         1.7402},
        // 236.588 x 1.386 and x 0.9982071: 592.42 g.
        {"ounces of one and of the other kind",
         "US",
         "liquid",
         "boric acid: 1 oz, corn syrup: 8 fl oz, water: 8 fl oz",
         {28.3495, 327.911, 236.164},
         "boric acid",
         4.7853},
        // 88.7206 x 1.2613, 14.7868 x 0.80, 236.588 x 0.845, 473.176 x 0.9982071: 795.98 g.
        {"with glycerin",
         "US",
         "liquid",
         "glycerin: 3 fl oz, boric acid: 1 tbsp, sugar: 1 cup, water: 2 cups",
         {111.903, 11.8294, 199.917, 472.328},
         "boric acid",
         1.48615},
        // 3785.41 x 0.9982071: 4232.22 g.
        {"a pound to the gallon",
         "US",
         "spray",
         "disodium octaborate: 1 lb, water: 1 US gal",
         {453.592, 3778.625},
         "disodium octaborate",
         10.7176},
        // 473.176 x 0.528, 236.588 x 0.51, 29.5735 x 0.80: 394.16 g.
        {"dough, dry",
         "US",
         "dry",
         "flour: 2 cups, icing sugar: 1 cup, boric acid: 2 tbsp",
         {249.837, 120.660, 23.6588},
         "boric acid",
         6.0024},
    };
    return all;
}

}  // namespace

TEST_CASE("ten kitchen recipes, typed as they are found") {
    for (const Kitchen& recipe : recipes()) {
        INFO(recipe.name);
        const Planned once = plan_of(job_of(recipe, ", batch: as written"));
        // Some are far from what is usual, and are told so: nothing else is wrong.
        for (const auto& it : once.out.in_order()) {
            INFO(it.code);
            CHECK((it.severity == diag::Severity::warning || it.code == "far-from-usual" ||
                   Planned::of_pests(it)));
        }
        const plan::Mix& mix = once.mix("m");
        REQUIRE(mix.ingredients.size() == recipe.grams.size());
        double all = 0;
        for (std::size_t i = 0; i < recipe.grams.size(); ++i) {
            INFO(mix.ingredients[i].name);
            CHECK(in_g(mix.ingredients[i].mass) == Approx(recipe.grams[i]).epsilon(2e-5));
            all += recipe.grams[i];
        }
        CHECK(in_g(mix.mass_asked) == Approx(all).epsilon(2e-5));
        CHECK(mix.batches == 1);
        CHECK(100 * mix.strength.at(recipe.active).asked_w_w ==
              Approx(recipe.percent).epsilon(2e-5));
        // Measured out it stays near what was asked.
        CHECK(100 * mix.strength.at(recipe.active).w_w == Approx(recipe.percent).epsilon(0.1));
        // Both forms: percent, and parts to one.
        REQUIRE_FALSE(mix.asked.empty());
        CHECK(mix.asked[0].basis == job::Basis::as_measured);
        CHECK(100 * mix.asked[0].share == Approx(recipe.percent).epsilon(2e-5));
        CHECK(mix.asked[0].parts == Approx(100 / recipe.percent - 1).epsilon(2e-5));
    }
}

TEST_CASE("a whole number of times what is written, or as much as is wanted") {
    for (const Kitchen& recipe : recipes()) {
        INFO(recipe.name);
        const Planned once = plan_of(job_of(recipe, ", batch: as written"));
        const Planned thrice = plan_of(job_of(recipe, ", batch: 3 times"));
        const Planned half = plan_of(job_of(recipe, ", batch: 1/2 times"));
        const Planned litre = plan_of(job_of(recipe, ", batch: 1 L"));
        const double written = in_mL(once.mix("m").measured);
        CHECK(in_mL(litre.mix("m").measured) == Approx(1000));
        for (std::size_t i = 0; i < recipe.grams.size(); ++i) {
            const auto grams = [&](const Planned& it) {
                return in_g(it.mix("m").ingredients[i].mass);
            };
            CHECK(grams(thrice) == Approx(3 * recipe.grams[i]).epsilon(2e-5));
            CHECK(grams(half) == Approx(recipe.grams[i] / 2).epsilon(2e-5));
            CHECK(grams(litre) == Approx(recipe.grams[i] * 1000 / written).epsilon(2e-5));
        }
    }
}

TEST_CASE("what a mix is to make is there once it is mixed") {
    for (const Kitchen& recipe : recipes()) {
        INFO(recipe.name);
        const Planned cups = plan_of(job_of(recipe, ", makes: 2 cups"));
        const plan::Mix& mix = cups.mix("m");
        // A cup of the recipe's own kitchen.
        const double cup = in_mL(mix.finished_asked) / 2;
        CHECK((cup == Approx(236.5882365).epsilon(1e-9) || cup == Approx(250).epsilon(1e-9)));
        CHECK(100 * mix.strength.at(recipe.active).asked_w_w ==
              Approx(recipe.percent).epsilon(2e-5));
    }
}

TEST_CASE("a litre made of 1 % in volume takes 10 g, a litre measured takes less") {
    // By its meaning: 1 g in each 100 mL of what is there in the end.
    const auto with = [](const std::string& size) {
        return plan_of(head +
                       "mixes:\n  m: { title: M, against: ants, form: liquid, basis: percent "
                       "w/v, ingredients: { borax: 1, sugar: 30, water: rest }, " +
                       size + " }\nstations: [{ id: C1, place: Yard, control: true }]\n");
    };
    const Planned made = with("makes: 1 L");
    CHECK(in_g(made.ingredient("m", "borax").mass) == Approx(10).epsilon(1e-6));
    CHECK(in_mL(made.mix("m").finished_asked) == Approx(1000).epsilon(1e-9));
    CHECK(in_mL(made.mix("m").measured) > 1000);
    const Planned measured = with("batch: 1 L");
    CHECK(in_g(measured.ingredient("m", "borax").mass) < 9.9);
    CHECK(in_mL(measured.mix("m").measured) == Approx(1000).epsilon(1e-9));
}

TEST_CASE("left out, a batch is what the stations need") {
    const Planned it = plan_of(head + R"(
mixes:
  m: { title: M, against: ants, form: liquid, ingredients: { sugar: 1/2 cup, borax: 1 1/2 tbsp, water: 1 1/2 cups } }
containers: { cup: { holds: 60 mL, fill: 45 mL } }
stations: [{ id: K1, place: Yard, mix: m, container: cup, count: 10 }]
)");
    CHECK(in_mL(it.mix("m").needed) == Approx(10 * 45 * 1.1));
    CHECK(in_mL(it.mix("m").finished_asked) == Approx(495).epsilon(0.02));
    // Metric cups and the Australian spoon here: 125 x 0.845, 30 x 0.85, 375 x 0.9982071 g.
    CHECK(100 * it.mix("m").strength.at("borax").asked_w_w ==
          Approx(100 * 25.5 / (105.625 + 25.5 + 374.328)).epsilon(1e-5));
}

TEST_CASE("the basis may be said, and a limit says its own") {
    const std::string mix =
        "\nmixes:\n  m: { title: M, against: ants, form: liquid, basis: as measured, ingredients: "
        "{ "
        "sugar: 100 g, borax: 20 g, water: 380 g }, batch: as written, limits: { borax: LIMIT } }\n"
        "stations: [{ id: C1, place: Yard, control: true }]\n";
    const auto with = [&](const std::string& limit) {
        std::string text = head + mix;
        text.replace(text.find("LIMIT"), 5, limit);
        return plan_of(text);
    };
    // 4 % by mass; 20 g in some 451 mL finished are 4.43 g in 100 mL; by volume 23.5 mL of 522.6.
    CHECK_FALSE(with("4.1 % w/w").out.has_errors());
    CHECK(with("3.9 % w/w").warns("over-limit"));
    CHECK_FALSE(with("4.6 % w/v").out.has_errors());
    CHECK(with("4.3 % w/v").warns("over-limit"));
    CHECK_FALSE(with("4.6 % v/v").out.has_errors());
    CHECK(with("4.4 % v/v").warns("over-limit"));
    // Never above it as measured: with steps of 1 g 4.05 % of 500 g leave 20 g.
    const Planned it = with("4.05 % w/w");
    CHECK(it.mix("m").strength.at("borax").w_w <= 0.0405);
}

TEST_CASE("parts too take a limit with a basis of its own") {
    const Planned it = plan_of(head + R"(
mixes:
  m: { title: M, against: ants, form: liquid, basis: parts by volume, ingredients: { borax: 1, water: 20 }, batch: 1 L,
       limits: { borax: 4.5 % w/w } }
stations: [{ id: C1, place: Yard, control: true }]
)");
    // 0.85 to 20 x 0.9982: 4.08 %.
    CHECK_FALSE(it.out.has_errors());
    CHECK(it.mix("m").strength.at("borax").w_w <= 0.045);
    CHECK(it.mix("m").strength.at("borax").w_w == Approx(0.0408).epsilon(0.06));
}
