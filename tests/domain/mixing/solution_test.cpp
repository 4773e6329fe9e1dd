#include "domain/mixing/solution.hpp"

#include <cmath>

#include "catch_all.hpp"

#include "recipes.hpp"

using namespace gallipot;
using namespace gallipot::mixing;
using namespace gallipot::tests;
using job::Basis;
using job::Form;
using units::in_g;
using units::in_mL;

namespace {

/// By parts of mass.
struct Made {
    Recipe recipe;
    std::vector<units::Mass> masses;
    [[nodiscard]] Solution solution() const { return {recipe.components, masses}; }
    [[nodiscard]] double volume() const {
        return in_mL(finished_volume(recipe.components, masses, recipe.form));
    }
    [[nodiscard]] double mass() const { return in_g(total(masses)); }
};
Made made(Form form, const std::vector<Asked>& grams) {
    Made it{recipe_of({}, form, Basis::parts_by_mass, grams), {}};
    it.masses = proportions(it.recipe);
    return it;
}

double clear_from(const Made& it) {
    const auto temperature = it.solution().clear_from();
    return temperature ? temperature->degrees : -1;
}

}  // namespace

TEST_CASE("finished volumes of syrups agree with published densities within half a percent") {
    // CRC Handbook, sucrose solutions, 20 C, as in the data of the open repository
    // pcingola/SnpEff (Sucrose.java), g/mL; and 45 and 55 % from NBS Circular 440 (memory).
    for (const auto& [percent, density] : {std::pair{1.0, 1.0021},
                                           {4.0, 1.0139},
                                           {9.0, 1.0340},
                                           {12.0, 1.0465},
                                           {16.0, 1.0635},
                                           {22.0, 1.0899},
                                           {28.0, 1.1175},
                                           {34.0, 1.1464},
                                           {38.0, 1.1663},
                                           {44.0, 1.1972},
                                           {45.0, 1.2025},
                                           {48.0, 1.2186},
                                           {54.0, 1.2518},
                                           {55.0, 1.2575},
                                           {58.0, 1.2747},
                                           {60.0, 1.2864}}) {
        const Made syrup = made(Form::liquid, {{"sugar", percent}, {"water", 100 - percent}});
        INFO(percent << " %");
        CHECK(syrup.mass() / syrup.volume() == Approx(density).epsilon(0.0005));
        CHECK(std::abs(syrup.volume() * density / 100 - 1) < 0.005);
    }
}

TEST_CASE("sugar adds less than its heap, and icing sugar as much as sugar") {
    const Made with = made(Form::liquid, {{"sugar", 20}, {"water", 80}});
    CHECK(with.volume() == Approx(80 / 0.9982 + 20 * 0.6185).epsilon(1e-4));
    const Made icing = made(Form::liquid, {{"icing sugar", 20}, {"water", 80}});
    CHECK(icing.volume() == Approx(with.volume()).epsilon(1e-12));
    const Made both = made(Form::liquid, {{"icing sugar", 10}, {"sugar", 10}, {"water", 80}});
    CHECK(both.volume() == Approx(with.volume()).epsilon(1e-12));
}

TEST_CASE("what exceeds the solubility takes its own room") {
    // 20 C: 203.9 g of sugar on 100 g of water (Mohos A2.2). 300 g leave 96.1 g as crystals.
    const Made thick = made(Form::paste, {{"sugar", 300}, {"water", 100}});
    const Made clear = made(Form::liquid, {{"sugar", 203.9}, {"water", 100}});
    CHECK(thick.volume() == Approx(clear.volume() + 96.1 / 1.5805).epsilon(1e-6));
    // Saturated, Mohos gives 1.3327 g/mL at 20 C.
    CHECK(clear.mass() / clear.volume() == Approx(1.3327).epsilon(0.005));
    // Nothing dissolves without water.
    const Made dry = made(Form::paste, {{"borax", 10}, {"cooking oil", 92}});
    CHECK(dry.volume() == Approx(100 + 10 / 1.73));
    CHECK(std::isinf(dry.solution().saturation({20}, Solution::Tables::as_they_are)));
    CHECK(made(Form::paste, {{"borax", 10}, {"baking soda", 11}, {"cooking oil", 92}}).volume() ==
          Approx(100 + 10 / 1.73 + 11 / 2.2));
}

TEST_CASE("a dry mix takes its bulk") {
    const Made dry = made(Form::dry, {{"borax", 85}, {"icing sugar", 51}});
    CHECK(dry.volume() == Approx(200));
}

TEST_CASE("borates in solution agree with published densities") {
    // Borax 5 % at 15 C: specific gravity 1.0249; 2 %: 1.0099 (an old table, memory).
    const Made five = made(Form::spray, {{"borax", 5}, {"water", 95}});
    // 5 % is a little more than dissolves at 20 C, so compare where it is clear.
    CHECK(five.mass() / five.volume() == Approx(1.0249 * 0.9982).epsilon(0.002));
    const Made two = made(Form::spray, {{"borax", 2}, {"water", 98}});
    CHECK(two.mass() / two.volume() == Approx(1.0099 * 0.9982).epsilon(0.001));
    // The same salt, whichever hydrate it came as: 1 mol of each, water made equal.
    const Made deca = made(Form::spray, {{"borax", 3.81363}, {"water", 196.18637}});
    const Made penta = made(Form::spray, {{"borax pentahydrate", 2.91288}, {"water", 197.08712}});
    CHECK(penta.volume() == Approx(deca.volume()).epsilon(1e-6));
    // Octaborate is borax and boric acid: 412.507 = 381.363 + 4 x 61.831 - 12 x 18.015.
    const Made octaborate =
        made(Form::spray, {{"disodium octaborate", 4.12507}, {"water", 195.87493}});
    const Made two_salts =
        made(Form::spray, {{"borax", 3.81363}, {"boric acid", 2.47324}, {"water", 193.71313}});
    CHECK(octaborate.volume() == Approx(two_salts.volume()).epsilon(1e-5));
}

TEST_CASE("the temperature at which a mix is clear") {
    SECTION("it dissolves cold") {
        const Made weak = made(Form::liquid, {{"borax", 1}, {"sugar", 20}, {"water", 79}});
        CHECK(clear_from(weak) == -1);
        CHECK_FALSE(weak.solution().never_clear());
    }
    SECTION("nothing to dissolve") {
        const Made plain = made(Form::liquid, {{"honey", 1}, {"water", 5}});
        CHECK(clear_from(plain) == -1);
        CHECK(plain.solution().saturation({20}, Solution::Tables::as_they_are) == 0);
    }
    SECTION("the table is read to the cautious side") {
        // 4.71 % of decahydrate is saturated at 20 C; allowing 5 % of doubt it wants about one
        // degree more (4.94 % at 21 C).
        const Made saturated = made(Form::spray, {{"borax", 4.71}, {"water", 95.29}});
        CHECK(saturated.solution().saturation({20}, Solution::Tables::as_they_are) ==
              Approx(1).epsilon(1e-9));
        CHECK(clear_from(saturated) > 20.5);
        CHECK(clear_from(saturated) < 22);
    }
    SECTION("less water, less dissolves: 1 part of sugar to 1 of water takes half its water") {
        const Made thin = made(Form::liquid, {{"borax", 4}, {"water", 100}});
        const Made sweet = made(Form::liquid, {{"borax", 4}, {"sugar", 50}, {"water", 50}});
        CHECK(clear_from(sweet) > clear_from(thin));
    }
    SECTION("hydrates of one salt add up") {
        const Made one = made(Form::spray, {{"borax", 6}, {"water", 94}});
        const Made halves = made(Form::spray, {{"borax", 3},
                                               {"borax pentahydrate", 3 * 291.288 / 381.363},
                                               {"water", 94 + 3 * (1 - 291.288 / 381.363)}});
        CHECK(clear_from(halves) == Approx(clear_from(one)).margin(0.5));
    }
    SECTION("it never does") {
        const Made much = made(Form::spray, {{"boric acid", 60}, {"water", 100}});
        CHECK(much.solution().never_clear());
        CHECK(clear_from(much) == -1);
        CHECK(made(Form::liquid, {{"borax", 1}, {"cooking oil", 9}}).solution().never_clear());
    }
    SECTION("glycerol dissolves borates") {
        const auto at_room = [](const Made& it) {
            return it.solution().saturation({20}, Solution::Tables::as_they_are);
        };
        // Borax glycerin of the British Pharmacopoeia: 12 g with 88 g of glycerol is a solution
        // (found). So is 1 g of borax in 1 mL (1.26 g) at 25 C, of which 20 C takes a little.
        const Made glycerite = made(Form::liquid, {{"borax", 12}, {"glycerol", 88}});
        CHECK_FALSE(glycerite.solution().never_clear());
        CHECK(at_room(glycerite) < 1);
        CHECK(made(Form::liquid, {{"borax", 100}, {"glycerol", 126.1}})
                  .solution()
                  .saturation({25}, Solution::Tables::as_they_are) == Approx(1).margin(0.01));
        // Boric acid: 24.2 g in 100 g of glycerol at 25 C, and 13.78 g in 100 g of 86.5 % glycerol
        // at 20 C (both found, Chemdatabase).
        CHECK(made(Form::liquid, {{"boric acid", 24.2}, {"glycerol", 100}})
                  .solution()
                  .saturation({25}, Solution::Tables::as_they_are) == Approx(1).margin(0.1));
        CHECK(at_room(made(Form::liquid,
                           {{"boric acid", 13.78}, {"glycerol", 86.5}, {"water", 13.5}})) ==
              Approx(1.1).margin(0.1));
        // Where there is little of it, it dissolves about what water would: 1.50 mol/L in 20 %
        // glycerol against 1.46 in water (Herz and Knoch 1905; memory).
        CHECK(
            at_room(made(Form::liquid, {{"boric acid", 4.87}, {"glycerol", 20}, {"water", 80}})) ==
            Approx(1).margin(0.02));
        // It does not help sugar.
        CHECK(made(Form::liquid, {{"sugar", 10}, {"glycerol", 90}}).solution().never_clear());
    }
    SECTION("water in honey counts, water in oil there is none") {
        const Made honeyed = made(Form::liquid, {{"borax", 0.2}, {"honey", 100}});
        CHECK(clear_from(honeyed) == -1);
        CHECK(honeyed.solution().saturation({20}, Solution::Tables::as_they_are) ==
              Approx(0.2 / 17 * 95.29 / 4.71).epsilon(1e-6));
    }
}

TEST_CASE("borax and boric acid together are counted as octaborate") {
    // NZ Farm Forestry Association: 20 % borax with 15 % boric acid in 65 % of water stays clear
    // down to 4.4 C. Ours is cautious, but far nearer than each salt against its own table.
    const Made together = made(Form::spray, {{"borax", 20}, {"boric acid", 15}, {"water", 65}});
    CHECK(together.solution().borates_together());
    CHECK(clear_from(together) > 4.4);
    CHECK(clear_from(together) < 60);
    const Made alone = made(Form::spray, {{"boric acid", 15}, {"water", 65}});
    CHECK(clear_from(alone) > 75);
    CHECK_FALSE(alone.solution().borates_together());
    const auto both = [](const char* one, const char* other) {
        return made(Form::spray, {{one, 5}, {other, 5}, {"water", 90}}).solution();
    };
    CHECK(both("borax pentahydrate", "boric acid").borates_together());
    CHECK_FALSE(both("borax", "borax pentahydrate").borates_together());
    CHECK_FALSE(both("boric acid", "sugar").borates_together());
    CHECK_FALSE(both("disodium octaborate", "boric acid").borates_together());
    const units::Mass none_of_it[] = {units::g(5), units::Mass{}, units::g(95)};
    CHECK_FALSE(Solution(together.recipe.components, none_of_it).borates_together());
    // What is exactly octaborate reads its table: 9.5 % at 20 C (producers' data, memory).
    const double share = 9.5 / 412.507;
    const Made exact =
        made(Form::spray,
             {{"borax", share * 381.363}, {"boric acid", share * 4 * 61.831}, {"water", 90.5}});
    CHECK(exact.solution().saturation({20}, Solution::Tables::as_they_are) ==
          Approx(1).epsilon(1e-4));
    // Adding a trace of the other salt never makes it look worse than both tables added up.
    const Made trace = made(Form::spray, {{"borax", 4}, {"boric acid", 0.1}, {"water", 100}});
    const double added = 4 / (100 * 4.71 / 95.29) + 0.1 / 4.87;
    CHECK(trace.solution().saturation({20}, Solution::Tables::as_they_are) <= added);
}

TEST_CASE("saturation falls as it gets warmer, and clear_from is where it reaches one") {
    RandomRecipes recipes(7);
    int found = 0;
    for (int round = 0; round < 1000; ++round) {
        const Recipe recipe = recipes.next();
        const auto masses = proportions(recipe);
        const Solution solution(recipe.components, masses);
        double before = solution.saturation({0}, Solution::Tables::cautiously);
        for (double celsius = 1; celsius <= 50; ++celsius) {
            const double now = solution.saturation({celsius}, Solution::Tables::cautiously);
            CHECK(now <= before);
            before = now;
        }
        CHECK(solution.saturation({20}, Solution::Tables::as_they_are) <=
              solution.saturation({20}, Solution::Tables::cautiously));
        if (const auto clear = solution.clear_from()) {
            ++found;
            CHECK(solution.saturation(*clear, Solution::Tables::cautiously) <= 1);
            CHECK(solution.saturation({clear->degrees - 1e-3}, Solution::Tables::cautiously) > 1);
        }
    }
    CHECK(found > 50);
}

// Worked by hand from the tables in src/domain/reference: what saturates 100 g of water at
// 20 C is 4.71 in 95.29 g of decahydrate, 3.5975 in 96.4025 g of pentahydrate, 4.87 g of boric
// acid, 9.5 in 90.5 g of octaborate; kmol of tetraborate and a quarter of those of boric acid pair
// off.
TEST_CASE("what cannot pair off counts as itself") {
    const auto saturation = [](const std::vector<Asked>& grams) {
        const Made it = made(Form::spray, grams);
        return it.solution().saturation({20}, Solution::Tables::as_they_are);
    };
    // 0.020216 pairs: 8.3394 g of octaborate, 12.2902 g of borax are left.
    CHECK(saturation({{"borax", 20}, {"boric acid", 5}, {"water", 75}}) ==
          Approx(12.2902 / 3.70710 + 8.3394 / 7.87293).epsilon(1e-4));
    // 0.013111 pairs: 5.4083 g of octaborate, 16.7574 g of boric acid are left.
    CHECK(saturation({{"boric acid", 20}, {"borax", 5}, {"water", 75}}) ==
          Approx(16.7574 / 3.6525 + 5.4083 / 7.87293).epsilon(1e-4));
    // Both hydrates pair alike, 0.53404 of each is left, and the octaborate adds to what was there.
    CHECK(saturation({{"disodium octaborate", 3},
                      {"borax", 10},
                      {"borax pentahydrate", 5},
                      {"boric acid", 5},
                      {"water", 75}}) ==
          Approx(5.34043 / 3.70710 + 2.67022 / 2.79885 + 11.3394 / 7.87293).epsilon(1e-4));
    // Octaborate alone has nothing to pair with, nor has each salt beside it.
    CHECK(saturation({{"disodium octaborate", 3}, {"borax", 2}, {"water", 100}}) ==
          Approx(3 / 10.49724 + 2 / 4.942806).epsilon(1e-5));
    CHECK(saturation({{"disodium octaborate", 3}, {"boric acid", 2}, {"water", 100}}) ==
          Approx(3 / 10.49724 + 2 / 4.87).epsilon(1e-5));
}

TEST_CASE("what dissolves worst decides, whichever comes first") {
    const auto saturation = [](const std::vector<Asked>& grams) {
        const Made it = made(Form::liquid, grams);
        return it.solution().saturation({20}, Solution::Tables::as_they_are);
    };
    // Of 203.9 g of sugar, 9.6 g of baking soda, 4.87 g of boric acid in 100 g of water.
    CHECK(saturation({{"boric acid", 1}, {"baking soda", 4.8}, {"sugar", 20}, {"water", 100}}) ==
          Approx(4.8 / 9.6));
    CHECK(saturation({{"boric acid", 1}, {"sugar", 180}, {"baking soda", 1}, {"water", 100}}) ==
          Approx(180 / 203.9));
    CHECK(saturation({{"sugar", 20}, {"boric acid", 4}, {"water", 100}}) == Approx(4 / 4.87));
}

TEST_CASE("a mix is clear from just the temperature of its table") {
    const auto from = [](const std::vector<Asked>& grams) {
        return clear_from(made(Form::spray, grams));
    };
    // Boric acid, 7 % of doubt: 3.65 g at 10 C, so 3.3945 g.
    CHECK(from({{"boric acid", 3.3945}, {"water", 100}}) == Approx(10).margin(1e-5));
    // 2.77 g at 0 C; the logarithm rises evenly to 3.65 g at 10 C.
    const double half_a_degree = 0.93 * 2.77 * std::pow(3.65 / 2.77, 0.05);
    CHECK(from({{"boric acid", half_a_degree}, {"water", 100}}) == Approx(0.5).margin(1e-5));
    // 38 g at 100 C.
    CHECK(from({{"boric acid", 0.93 * 38 - 1e-6}, {"water", 100}}) == Approx(100).margin(1e-4));
    CHECK(from({{"boric acid", 0.93 * 38 + 1e-6}, {"water", 100}}) == -1);
}

TEST_CASE("with baking soda nothing is heated above 50 C, wherever it stands") {
    // 16 g of boric acid need more than 60 C (14.89 g).
    const Made acid = made(Form::spray, {{"boric acid", 16}, {"water", 100}});
    CHECK_FALSE(acid.solution().never_clear());
    for (const auto& grams :
         {std::vector<Asked>{{"boric acid", 16}, {"baking soda", 5}, {"water", 100}},
          {{"baking soda", 5}, {"boric acid", 16}, {"water", 100}},
          {{"baking soda", 5}, {"sugar", 10}, {"boric acid", 16}, {"water", 100}}}) {
        const Solution solution = made(Form::spray, grams).solution();
        CHECK(solution.never_clear());
        // 11.39 g at 50 C.
        CHECK(solution.hottest_saturation() == Approx(16 / (0.93 * 11.39)));
    }
}

TEST_CASE("what stays undissolved takes its own room, the rest that of what is dissolved") {
    // 10 g of boric acid in 100 g of water at 20 C: 4.87 g dissolve, at 39.4 mL for 61.831 g.
    const double water = 100 / 0.9982071, acid = 39.4 / 61.831;
    CHECK(made(Form::spray, {{"boric acid", 10}, {"water", 100}}).volume() ==
          Approx(water + 4.87 * acid + 5.13 / 1.435).epsilon(1e-5));
    // Of several substances each has its own: 19.2 g of baking soda are twice what dissolves.
    CHECK(made(Form::spray, {{"baking soda", 19.2}, {"boric acid", 4}, {"water", 100}}).volume() ==
          Approx(water + 4 * acid + 9.6 * 0.29 + 9.6 / 2.2).epsilon(1e-5));
    // Flour never dissolves.
    CHECK(made(Form::paste, {{"flour", 20}, {"boric acid", 4}, {"water", 100}}).volume() ==
          Approx(made(Form::spray, {{"boric acid", 4}, {"water", 100}}).volume() + 20 / 1.45)
              .epsilon(1e-5));
}

TEST_CASE("what was bought as a solution counts for the saturation, and takes the bottle's room") {
    const auto substance = [](const char* name) { return reference::find_substance(name); };
    const auto exactly = [](double density) {
        return units::Range<units::Density>::exactly(units::g_per_mL(density));
    };
    Component bottle;
    bottle.state = reference::State::liquid;
    bottle.density = exactly(1.02);
    bottle.true_density = units::g_per_mL(1.02);
    bottle.parts = {{substance("boric acid"), 0.04, true}, {substance("water"), 0.96, true}};
    Component powder;
    powder.density = exactly(0.8);
    powder.true_density = units::g_per_mL(2);
    powder.parts = {{substance("boric acid"), 0.25, false}};

    // 4 g in 96 g of water.
    const Component one[] = {bottle};
    const units::Mass hundred[] = {units::g(100)};
    const Solution alone(one, hundred);
    CHECK(alone.saturation({20}, Solution::Tables::as_they_are) == Approx(4 / (0.96 * 4.87)));
    CHECK(in_mL(alone.volume()) == Approx(100 / 1.02));

    // 2 g more of a powder of which 6 g are nobody knows what, and do not dissolve: 6 g in 96 g of
    // water, of which 4.6752 g dissolve, and as much of the powder's as of the bottle's.
    const Component both[] = {powder, bottle};
    const units::Mass grams[] = {units::g(8), units::g(100)};
    const Solution mixed(both, grams);
    CHECK(mixed.saturation({20}, Solution::Tables::as_they_are) == Approx(6 / (0.96 * 4.87)));
    const double clear = 2 * 0.96 * 4.87 / 6;
    CHECK(in_mL(mixed.volume()) ==
          Approx(100 / 1.02 + 6 / 2.0 + clear * 39.4 / 61.831 + (2 - clear) / 1.435).epsilon(1e-6));

    // Beside the bottle, sugar takes the room that it takes dissolved.
    Component sugar;
    sugar.density = exactly(0.8);
    sugar.true_density = units::g_per_mL(1.5805);
    sugar.parts = {{substance("sugar"), 1, false}};
    const Component sweet[] = {bottle, sugar};
    const units::Mass ten[] = {units::g(100), units::g(24)};
    CHECK(in_mL(Solution(sweet, ten).volume()) == Approx(100 / 1.02 + 24 * 0.6185).epsilon(1e-3));
}
