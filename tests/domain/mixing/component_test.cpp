#include "domain/mixing/component.hpp"

#include "catch_all.hpp"

#include "recipes.hpp"

using namespace gallipot;
using namespace gallipot::mixing;
using namespace gallipot::tests;
using job::Form;
using reference::find_substance;
using units::Density;
using units::g_per_mL;
using units::Range;

namespace {

/// So much percent of a known substance, its density unless it is 0.
job::Supply product(const char* of, double percent, Range<Density> density = {}) {
    job::Supply it;
    it.name = "product";
    it.place.line = 7;
    it.strength = job::Strength{{of, {}}, {units::Share::percent(percent), {}}};
    if (density.usual.si() > 0) it.density = diag::At<Range<Density>>{density, {}};
    return it;
}

std::optional<Component> resolved(const job::Supply& supply, Form form, diag::Diagnostics& out) {
    job::Job job;
    job.supplies.emplace(supply.name, supply);
    job::Ingredient ingredient;
    ingredient.name = supply.name;
    return resolve(job, ingredient, form, out);
}

Component component(const job::Supply& supply, Form form) {
    diag::Diagnostics out;
    const auto it = resolved(supply, form, out);
    INFO(diag::print(out));
    REQUIRE(it);
    return *it;
}

std::string error_of(const job::Supply& supply, Form form) {
    diag::Diagnostics out;
    resolved(supply, form, out);
    return only_error(out);
}

double density(const Component& it) {
    return units::in_g_per_mL(it.density.usual);
}
double true_density(const Component& it) {
    return units::in_g_per_mL(it.true_density);
}

}  // namespace

TEST_CASE("a product that is poured is its substance and water, both dissolved") {
    const Component it = component(product("boric acid", 4), Form::liquid);
    CHECK(it.state == reference::State::liquid);
    REQUIRE(it.parts.size() == 2);
    CHECK(it.parts[0].substance == find_substance("boric acid"));
    CHECK(it.parts[0].share == Approx(0.04));
    CHECK(it.parts[0].in_solution);
    CHECK(it.parts[1].substance == find_substance("water"));
    CHECK(it.parts[1].share == Approx(0.96));
    CHECK(it.parts[1].in_solution);
    CHECK(it.boron == Approx(0.04 * find_substance("boric acid")->boron_fraction()));
    CHECK(true_density(it) == Approx(density(it)));
    CHECK(density(it) > 1);
    CHECK_FALSE(it.water());
    CHECK_FALSE(it.vouched);
}

TEST_CASE("a product that is scooped is its substance beside something unknown") {
    const auto packs = Range<Density>{g_per_mL(0.4), g_per_mL(0.5), g_per_mL(0.6)};
    for (const Form form : {Form::dry, Form::liquid}) {
        const Component it = component(product("boric acid", 50, packs), form);
        CHECK(it.state == reference::State::powder);
        REQUIRE(it.parts.size() == 1);
        CHECK(it.parts[0].share == Approx(0.5));
        CHECK_FALSE(it.parts[0].in_solution);
        // Its bulk stands in for the solid.
        CHECK(true_density(it) == Approx(0.5));
    }
}

TEST_CASE("the density of a clear solution is computed, any other must be given") {
    // Boric acid: 4.87 g in 100 g of water at 20 C (Chemdatabase), 4.64 % of the whole.
    CHECK(error_of(product("boric acid", 4.6), Form::liquid) == "none");
    CHECK(error_of(product("boric acid", 4.7), Form::liquid) == "missing-density:7");
    CHECK(error_of(product("boric acid", 2), Form::dry) == "missing-density:7");
    REQUIRE(find_substance("flour")->solubility == std::nullopt);
    CHECK(error_of(product("flour", 2), Form::liquid) == "missing-density:7");
    const Component strong =
        component(product("boric acid", 8, Range<Density>::exactly(g_per_mL(1.03))), Form::liquid);
    CHECK(density(strong) == Approx(1.03));
    CHECK(true_density(strong) == Approx(1.03));
}

TEST_CASE("a density given is a liquid's own, a powder's bulk only") {
    job::Supply honey;
    honey.name = "honey";
    honey.density = diag::At<Range<Density>>{{g_per_mL(1.3), g_per_mL(1.4), g_per_mL(1.5)}, {}};
    CHECK(true_density(component(honey, Form::liquid)) == Approx(1.4));
    job::Supply sugar;
    sugar.name = "sugar";
    sugar.density = honey.density;
    CHECK(density(component(sugar, Form::liquid)) == Approx(1.4));
    CHECK(true_density(component(sugar, Form::liquid)) == Approx(1.5805));
}

TEST_CASE("that there is no hazard is taken from the supply and from nothing else") {
    job::Supply malt;
    malt.name = "malt";
    malt.density = diag::At<Range<Density>>{Range<Density>::exactly(g_per_mL(1.4)), {}};
    CHECK_FALSE(component(malt, Form::liquid).vouched);
    malt.hazard = diag::At<std::string>{"none", {}};
    CHECK(component(malt, Form::liquid).vouched);
    malt.hazard = diag::At<std::string>{"irritant", {}};
    CHECK_FALSE(component(malt, Form::liquid).vouched);
}

TEST_CASE("how much of a product holds a gram of a substance") {
    const auto& sugar = *find_substance("sugar");
    const auto& water = *find_substance("water");
    const Component syrup = component(product("sugar", 65), Form::liquid);
    CHECK(mass_for(syrup, sugar) == Approx(1 / 0.65));
    CHECK(mass_for(syrup, water) == Approx(1 / 0.35));
    CHECK(mass_for(syrup, *find_substance("boric acid")) == std::nullopt);
    // Nothing of it is left for water.
    const auto given = Range<Density>::exactly(g_per_mL(1.6));
    CHECK(mass_for(component(product("sugar", 100, given), Form::liquid), water) == std::nullopt);
}
