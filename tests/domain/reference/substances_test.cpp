#include "domain/reference/substances.hpp"

#include <cmath>
#include <stdexcept>
#include <type_traits>

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::reference;

namespace {
const Substance& named(const char* name) {
    const Substance* it = find_substance(name);
    REQUIRE(it != nullptr);
    return *it;
}
}  // namespace

TEST_CASE("substances are found by every name, letter case ignored") {
    CHECK(find_substance("Borax Decahydrate") == find_substance("borax"));
    CHECK(find_substance("SUCROSE") == find_substance("sugar"));
    CHECK(find_substance("BORAX") == find_substance("borax"));
    CHECK(find_substance("dot") == find_substance("disodium octaborate"));
    CHECK(find_substance("borax pentahydrate") != find_substance("borax"));
    CHECK(find_substance("arsenic") == nullptr);
    CHECK(find_substance("") == nullptr);
    for (const auto& name : substance_names()) CHECK(find_substance(name) != nullptr);
    // PRODUCT's list of what is known by name.
    for (const char* name : {"water", "sugar", "icing sugar", "borax", "borax pentahydrate",
                             "boric acid", "disodium octaborate", "baking soda", "glycerol",
                             "honey", "corn syrup", "flour", "peanut butter", "cooking oil"}) {
        CHECK(find_substance(name) != nullptr);
    }
}

TEST_CASE("no two substances share a name") {
    std::size_t all = 0;
    for (const Substance& it : substances()) {
        all += it.also.size() + 1 + (it.formal == it.name ? 0 : 1);
    }
    CHECK(substance_names().size() == all);
}

TEST_CASE("every substance has what the computation needs, within bounds") {
    for (const Substance& it : substances()) {
        INFO(it.name);
        CHECK(it.density.value.low <= it.density.value.usual);
        CHECK(it.density.value.usual <= it.density.value.high);
        CHECK(it.density.value.low > units::Density{});
        CHECK_FALSE(it.density.source.empty());
        CHECK_FALSE(it.true_density.source.empty());
        // Grains with air between them are lighter than the grain.
        CHECK(it.density.value.high.si() <= it.true_density.value.si() * 1.05);
        if (it.solubility) {
            CHECK((it.volume_in_solution.has_value() || it.sugar));
            CHECK(it.solubility_doubt > 0);
            const auto& points = it.solubility->value;
            REQUIRE(points.size() >= 2);
            for (std::size_t i = 1; i < points.size(); ++i) {
                CHECK(points[i].temperature > points[i - 1].temperature);
                CHECK(points[i].g_per_100g_water > points[i - 1].g_per_100g_water);
            }
        }
        if (it.borate()) CHECK(it.molar_mass_g_per_mol.has_value());
    }
}

TEST_CASE("molar masses agree with published ones") {
    // USP 32, Boric Acid: 61.83. crystalls.info, sodium tetraborate: 381.366 and 291.291.
    CHECK(named("boric acid").molar_mass_g_per_mol->value == Approx(61.83).epsilon(2e-4));
    CHECK(named("borax").molar_mass_g_per_mol->value == Approx(381.366).epsilon(2e-4));
    CHECK(named("borax pentahydrate").molar_mass_g_per_mol->value == Approx(291.291).epsilon(2e-4));
    // CRC Handbook, sucrose 342.297 (memory); octaborate tetrahydrate 412.5 (memory).
    CHECK(named("sugar").molar_mass_g_per_mol->value == Approx(342.297).epsilon(1e-4));
    CHECK(named("disodium octaborate").molar_mass_g_per_mol->value == Approx(412.5).epsilon(2e-4));
}

TEST_CASE("boron shares agree with published ones and with arithmetic by hand") {
    // An Australian approved-ingredient summary gives 17.49 % for boric acid; a chemists' forum
    // works out 4 x 10.81 / 381.38 = 11.34 % for borax.
    CHECK(named("boric acid").boron_fraction() == Approx(0.1749).epsilon(1e-3));
    CHECK(named("borax").boron_fraction() == Approx(0.1134).epsilon(1e-3));
    // By hand from the atomic weights: 8 x 10.81 / 412.507.
    CHECK(named("disodium octaborate").boron_fraction() == Approx(86.48 / 412.507).epsilon(1e-6));
    CHECK(named("sugar").boron_fraction() == 0);
}

TEST_CASE("equivalents between borates") {
    // By hand: 4 x 61.831 / 381.363 = 0.6485; 4 x 61.831 / 291.288 = 0.8491;
    // 8 x 61.831 / 412.507 = 1.1991; 381.363 / 291.288 = 1.309.
    const Substance& acid = named("boric acid");
    CHECK(borate_equivalent(named("borax"), acid) == Approx(0.6485).margin(5e-5));
    CHECK(borate_equivalent(named("borax pentahydrate"), acid) == Approx(0.8491).margin(5e-5));
    CHECK(borate_equivalent(named("disodium octaborate"), acid) == Approx(1.1991).margin(5e-5));
    CHECK(borate_equivalent(named("borax pentahydrate"), named("borax")) ==
          Approx(1.309).margin(5e-4));
    for (const Substance& a : substances()) {
        for (const Substance& b : substances()) {
            if (!a.borate() || !b.borate()) continue;
            CHECK(borate_equivalent(a, b) * borate_equivalent(b, a) == Approx(1).epsilon(1e-14));
        }
    }
    CHECK_THROWS_AS(borate_equivalent(acid, named("sugar")), std::invalid_argument);
    CHECK_THROWS_AS(borate_equivalent(named("sugar"), acid), std::invalid_argument);
}

namespace {
double mass_percent(const char* name, double celsius) {
    const double grams = *solubility_at(named(name), {celsius});
    return 100 * grams / (100 + grams);
}
}  // namespace

TEST_CASE("solubility between the table's points agrees with published points not in it") {
    // Borax, a data sheet quoted at apug.org, post 825434: 4.52 % at 19 C, 4.94 % at 21 C.
    CHECK(mass_percent("borax", 19) == Approx(4.52).epsilon(0.01));
    CHECK(mass_percent("borax", 21) == Approx(4.94).epsilon(0.01));
    // Boric acid, an encyclopaedia's table (memory), mass percent: 15.75 at 70 C, 23.3 at 90 C.
    // Our own doubt on that table is 7 %.
    CHECK(mass_percent("boric acid", 70) == Approx(15.75).epsilon(0.03));
    CHECK(mass_percent("boric acid", 90) == Approx(23.3).epsilon(0.03));
    // Sucrose, Mohos (2010) Table A2.3 (Sokolovsky 1958): 421.92 g per 100 g of water at 90 C.
    CHECK(*solubility_at(named("sugar"), {90}) ==
          Approx(421.92).epsilon(named("sugar").solubility_doubt));
}

TEST_CASE("a second published table lies within the doubt") {
    // Borax on the anhydrous basis, encyclopaedic table (memory), g Na2B4O7 per 100 g of water,
    // converted: a g anhydrous are d = a x 381.363/201.213 g decahydrate, which bring
    // d - a g of water, so added water is 100 - (d - a).
    for (const auto& [celsius, anhydrous] : {std::pair{0.0, 1.11},
                                             {10.0, 1.6},
                                             {20.0, 2.56},
                                             {30.0, 3.86},
                                             {60.0, 19.0},
                                             {80.0, 31.4}}) {
        const double decahydrate = anhydrous * 381.363 / 201.213;
        const double per_added = 100 * decahydrate / (100 - (decahydrate - anhydrous));
        INFO(celsius << " C");
        CHECK(*solubility_at(named("borax"), {celsius}) == Approx(per_added).epsilon(0.06));
    }
    // Boric acid, figures widely copied as g/100 mL that are mass percent (27.53 = 38/138).
    for (const auto& [celsius, percent] :
         {std::pair{0.0, 2.52}, {20.0, 4.72}, {25.0, 5.7}, {80.0, 19.1}, {100.0, 27.53}}) {
        INFO(celsius << " C");
        const double doubt = named("boric acid").solubility_doubt;
        const double ours = *solubility_at(named("boric acid"), {celsius});
        const double theirs = 100 * percent / (100 - percent);
        CHECK(ours * (1 - doubt) <= theirs);
        CHECK(theirs <= ours * (1 + doubt));
    }
}

TEST_CASE("crystal water counts as water that was not added") {
    // 4.71 g of decahydrate in 100 g of saturated solution: 4.71 on 95.29 g of water added.
    CHECK(*solubility_at(named("borax"), {20}) == Approx(100 * 4.71 / 95.29).epsilon(1e-12));
    // The same salt as pentahydrate: 4.71 x 291.288/381.363 = 3.5975 g on 96.4025 g.
    CHECK(*solubility_at(named("borax pentahydrate"), {20}) ==
          Approx(100 * 3.59754 / 96.40246).epsilon(1e-5));
}

TEST_CASE("solubility is held at the ends of its table, and is none for what does not dissolve") {
    CHECK(*solubility_at(named("boric acid"), {-10}) == 2.77);
    CHECK(*solubility_at(named("boric acid"), {120}) == 38);
    CHECK(*solubility_at(named("boric acid"), {25}) == Approx(5.74));
    CHECK_FALSE(solubility_at(named("flour"), {20}));
    CHECK_FALSE(solubility_at(named("glycerol"), {20}));
}

namespace {
/// What each substance is classified as, by hand from the sources named in the table: CLP Annex VI
/// for the borates, data sheets and food for the rest. A new one has to be written down here too.
struct Stated {
    const char* name;
    std::vector<HazardClass> classes;
};
const std::vector<Stated> stated = {
    {"water", {}},
    {"sugar", {}},
    {"icing sugar", {}},
    {"baking soda", {}},
    {"glycerol", {}},
    {"honey", {}},
    {"corn syrup", {}},
    {"flour", {}},
    {"peanut butter", {}},
    {"cooking oil", {}},
    {"borax", {HazardClass::reproductive_1b, HazardClass::eye_irritation_2}},
    {"borax pentahydrate", {HazardClass::reproductive_1b, HazardClass::eye_irritation_2}},
    {"boric acid", {HazardClass::reproductive_1b}},
    {"disodium octaborate", {HazardClass::reproductive_1b}},
};
}  // namespace

TEST_CASE("the hazard of every substance is stated, with its source") {
    CHECK(stated.size() == substances().size());
    for (const Stated& it : stated) {
        INFO(it.name);
        const StatedHazard& hazard = named(it.name).hazard;
        REQUIRE(hazard.known());
        CHECK(hazard.classes().value == it.classes);
        CHECK(hazard.classes().source.size() > 10);
    }
    // A substance without one does not compile; one that says it is unstated has none.
    CHECK_FALSE(std::is_default_constructible_v<StatedHazard>);
    CHECK_FALSE(std::is_default_constructible_v<Substance>);
    CHECK_FALSE(StatedHazard::unstated().known());
    CHECK_FALSE(StatedHazard::unstated().has(HazardClass::reproductive_1b));
    CHECK_THROWS(StatedHazard::unstated().classes());
}
