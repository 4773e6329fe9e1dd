#include "domain/mixing/amounts.hpp"

#include "catch_all.hpp"

#include "domain/mixing/solution.hpp"
#include "recipes.hpp"

using namespace gallipot;
using namespace gallipot::mixing;
using namespace gallipot::tests;
using job::Basis;
using job::Form;
using units::in_g;
using units::in_mL;

namespace {

job::Supply solution_of(const char* name, const char* of, double percent) {
    job::Supply it;
    it.name = name;
    it.strength = job::Strength{{of, {}}, {units::Share::percent(percent), {}}};
    return it;
}

std::string error_of(Form form, Basis basis, const std::vector<Asked>& all,
                     const job::Job& job = {}) {
    diag::Diagnostics out;
    const auto recipe = read_recipe(job, mix_of(form, basis, all), out);
    CHECK(recipe.has_value() == !out.has_errors());
    return only_error(out);
}

}  // namespace

TEST_CASE("percent w/w of the total, the rest filling up") {
    const Recipe recipe = recipe_of({}, Form::liquid, Basis::percent_w_w,
                                    {{"borax", 1}, {"sugar", 20}, {"water", rest}});
    const auto masses = proportions(recipe);
    CHECK(in_g(masses[0]) == Approx(1));
    CHECK(in_g(masses[1]) == Approx(20));
    CHECK(in_g(masses[2]) == Approx(79));
}

TEST_CASE("percent w/v fills up to the finished volume") {
    const Recipe recipe =
        recipe_of({}, Form::liquid, Basis::percent_w_v, {{"sugar", 34.23}, {"water", rest}});
    const auto masses = proportions(recipe);
    CHECK(in_mL(finished_volume(recipe.components, masses, recipe.form)) ==
          Approx(100).epsilon(1e-12));
    // 342.3 g of sucrose in a litre, one molar, is 30.3 % w/w: interpolated between 338.1 g/L at
    // 30 % and 350.85 g/L at 31 % (Nicolaus Copernicus University tables).
    CHECK(in_g(masses[0]) / in_g(total(masses)) == Approx(0.303).margin(5e-4));
}

TEST_CASE("percent w/v fills up with what takes far less room dissolved than scooped") {
    for (const char* filler : {"icing sugar", "sugar", "water"}) {
        const char* other = filler == std::string("water") ? "sugar" : "water";
        INFO(filler);
        const Recipe recipe =
            recipe_of({}, Form::liquid, Basis::percent_w_v, {{other, 45}, {filler, rest}});
        const auto masses = proportions(recipe);
        CHECK(in_g(masses[0]) == Approx(45));
        CHECK(in_mL(finished_volume(recipe.components, masses, recipe.form)) ==
              Approx(100).epsilon(1e-12));
    }
}

TEST_CASE("parts by volume are scooped and poured volumes") {
    const Recipe recipe =
        recipe_of({}, Form::dry, Basis::parts_by_volume, {{"borax", 1}, {"icing sugar", 1}});
    const auto masses = proportions(recipe);
    CHECK(in_mL(measured_volume(recipe.components[0], masses[0])) == Approx(1));
    CHECK(in_mL(measured_volume(recipe.components[1], masses[1])) == Approx(1));
    // Bulk densities 0.85 and 0.51 g/mL: 62.5 % borax by weight from equal volumes.
    CHECK(in_g(masses[0]) / in_g(total(masses)) == Approx(0.625));
}

TEST_CASE("a strength in terms of another borate goes through boron") {
    const Recipe recipe = recipe_of({}, Form::spray, Basis::percent_w_w,
                                    {{"borax", 1, "boric acid"}, {"water", rest}});
    // facts of boron arithmetic by hand: 1/0.6485 = 1.542.
    CHECK(recipe.amounts[0] == Approx(1.542).epsilon(1e-4));
    CHECK(recipe.amounts[1] == Approx(100 - 1.542).epsilon(1e-5));
    // And back: boron of 1 % of boric acid.
    const auto masses = proportions(recipe);
    CHECK(in_g(masses[0]) * recipe.components[0].boron ==
          Approx(reference::find_substance("boric acid")->boron_fraction()));
}

TEST_CASE("any borate to any borate and back is the same") {
    const char* const borates[] = {"borax", "borax pentahydrate", "boric acid",
                                   "disodium octaborate"};
    for (const char* a : borates) {
        for (const char* b : borates) {
            const Recipe there =
                recipe_of({}, Form::spray, Basis::percent_w_w, {{a, 1, b}, {"water", rest}});
            const Recipe back =
                recipe_of({}, Form::spray, Basis::percent_w_w, {{b, 1, a}, {"water", rest}});
            INFO(a << " as " << b);
            CHECK(there.as_factors[0] * back.as_factors[0] == Approx(1).epsilon(1e-13));
        }
    }
}

TEST_CASE("a bought solution is diluted") {
    job::Job job;
    job.supplies.emplace("borate water", solution_of("borate water", "boric acid", 4));
    const Recipe recipe = recipe_of(job, Form::liquid, Basis::percent_w_w,
                                    {{"borate water", 1, "boric acid"}, {"water", rest}});
    CHECK(recipe.amounts[0] == Approx(25));
    // Its density is computed: 4 g of boric acid take 0.637 mL each, 96 g of water 96.17 mL.
    CHECK(units::in_g_per_mL(recipe.components[0].density.usual) ==
          Approx(100 / (4 * 39.4 / 61.831 + 96 / 0.9982)).epsilon(1e-4));
    // Stated as borax, which it does not hold: through boron.
    const Recipe as_borax = recipe_of(job, Form::liquid, Basis::percent_w_w,
                                      {{"borate water", 1, "borax"}, {"water", rest}});
    CHECK(as_borax.amounts[0] == Approx(25 * 0.6485).epsilon(1e-4));

    SECTION("of 8 %, more than dissolves cold, its density must be given") {
        job.supplies.emplace("strong", solution_of("strong", "boric acid", 8));
        CHECK(error_of(Form::liquid, Basis::percent_w_w,
                       {{"strong", 1, "boric acid"}, {"water", rest}}, job) == "missing-density:0");
        job.supplies.at("strong").density = diag::At<units::Range<units::Density>>{
            units::Range<units::Density>::exactly(units::g_per_mL(1.03)), {}};
        const Recipe strong = recipe_of(job, Form::liquid, Basis::percent_w_w,
                                        {{"strong", 1, "boric acid"}, {"water", rest}});
        CHECK(strong.amounts[0] == Approx(12.5));
    }
    SECTION("in a dry mix it is a powder, beside something unknown") {
        job::Supply dust = solution_of("dust", "boric acid", 50);
        dust.density = diag::At<units::Range<units::Density>>{
            units::Range<units::Density>::exactly(units::g_per_mL(0.5)), {}};
        job.supplies.emplace("dust", dust);
        const Recipe dry =
            recipe_of(job, Form::dry, Basis::parts_by_mass, {{"dust", 2}, {"flour", 1}});
        CHECK(dry.components[0].powder());
        CHECK(dry.components[0].boron ==
              Approx(0.5 * reference::find_substance("boric acid")->boron_fraction()));
    }
}

TEST_CASE("one of the user's own is poured, or scooped where it packs or goes into a dry mix") {
    job::Job job;
    job::Supply malt;
    malt.name = "malt";
    malt.density = diag::At<units::Range<units::Density>>{
        units::Range<units::Density>::exactly(units::g_per_mL(1.4)), {}};
    job.supplies.emplace("malt", malt);
    const std::vector<Asked> equal = {{"malt", 1}, {"borax", 1}};
    const auto state = [&](Form form) {
        return recipe_of(job, form, Basis::parts_by_mass, equal).components[0].state;
    };
    CHECK(state(Form::liquid) == reference::State::liquid);
    CHECK(state(Form::dry) == reference::State::powder);
    job.supplies.at("malt").density->value.low = units::g_per_mL(1.2);
    CHECK(state(Form::liquid) == reference::State::powder);
}

TEST_CASE("a supply's own density goes before the table's") {
    job::Job job;
    job::Supply own;
    own.name = "sugar";
    own.density = diag::At<units::Range<units::Density>>{
        units::Range<units::Density>::exactly(units::g_per_mL(0.9)), {}};
    job.supplies.emplace("sugar", own);
    const Recipe recipe =
        recipe_of(job, Form::liquid, Basis::parts_by_volume, {{"sugar", 1}, {"water", 2}});
    CHECK(recipe.components[0].density.exact());
    CHECK(in_g(proportions(recipe)[0]) == Approx(0.9));
    // Dissolved it takes the room it always does.
    CHECK(units::in_g_per_mL(recipe.components[0].true_density) == Approx(1.5805));
}

TEST_CASE("what cannot be made sense of is an error at its place") {
    const auto liquid = Form::liquid;
    // The mix of these tests has no line of its own: errors on the whole stand at line 0.
    CHECK(error_of(liquid, Basis::percent_w_w, {{"borax", 1}, {"water", 98}}) ==
          "shares-not-100:0");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"borax", 1}, {"water", 99}}) == "none");
    CHECK(error_of(liquid, Basis::percent_v_v, {{"sugar", 60}, {"honey", 40.1}}) ==
          "shares-not-100:0");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"sugar", 101}, {"water", rest}}) ==
          "no-room-for-rest:11");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"sugar", 100}, {"water", rest}}) ==
          "no-room-for-rest:11");
    CHECK(error_of(liquid, Basis::percent_w_v, {{"sugar", 170}, {"water", rest}}) ==
          "no-room-for-rest:11");
    CHECK(error_of(liquid, Basis::percent_w_v, {{"sugar", 20}, {"water", 80}}) == "no-rest:0");
    CHECK(error_of(liquid, Basis::parts_by_mass, {{"borax", 0}, {"water", 50}}) ==
          "amount-not-positive:10");
    CHECK(error_of(liquid, Basis::parts_by_mass, {{"borax", 1}, {"water", rest}}) ==
          "misplaced-rest:11");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"honey", rest}, {"water", rest}}) ==
          "misplaced-rest:11");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"moonwater", 1}, {"water", rest}}) ==
          "unknown-ingredient:10");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"sugar", 1, "boric acid"}, {"water", rest}}) ==
          "as-not-held:10");
    CHECK(error_of(liquid, Basis::percent_w_w, {{"borax", 1, "mystery"}, {"water", rest}}) ==
          "unknown-substance:10");
    CHECK(error_of(liquid, Basis::percent_v_v, {{"borax", 1, "boric acid"}, {"water", rest}}) ==
          "as-by-volume:10");
    job::Job job;
    job::Supply malt;
    malt.name = "malt";
    malt.place.line = 5;
    job.supplies.emplace("malt", malt);
    CHECK(error_of(liquid, Basis::percent_v_v, {{"malt", 1}, {"water", rest}}, job) ==
          "missing-density:5");
}

TEST_CASE("several errors of a mix come in one run") {
    diag::Diagnostics out;
    read_recipe({},
                mix_of(Form::liquid, Basis::parts_by_mass,
                       {{"borax", 0}, {"moonwater", 1}, {"water", rest}}),
                out);
    CHECK(out.errors() == 3);
}

TEST_CASE("from the basis to masses and back is the identity") {
    RandomRecipes recipes(1);
    for (int round = 0; round < 2000; ++round) {
        const Recipe recipe = recipes.next();
        const auto masses = proportions(recipe);
        const auto back = on_basis(recipe, masses);
        INFO("round " << round);
        for (std::size_t i = 0; i < back.size(); ++i) {
            CHECK(back[i] == Approx(recipe.amounts[i]).epsilon(1e-11));
        }
        // And it does not depend on how much is made.
        std::vector<units::Mass> scaled = masses;
        const double factor = recipes.real(0.01, 100);
        for (auto& mass : scaled) mass *= factor;
        const auto again = on_basis(recipe, scaled);
        for (std::size_t i = 0; i < back.size(); ++i) CHECK(again[i] == Approx(back[i]));
        CHECK(finished_volume(recipe.components, scaled, recipe.form).si() ==
              Approx(finished_volume(recipe.components, masses, recipe.form).si() * factor));
    }
}
