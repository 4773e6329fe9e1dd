#include "base/units/unit_table.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "base/units/parse.hpp"
#include "base/units/quantity.hpp"

using namespace gallipot::units;

namespace {

double mL_of(const std::string& text, KitchenSystem kitchen = KitchenSystem::metric) {
    const auto parsed = parse_volume(text, kitchen);
    INFO(text);
    REQUIRE(std::holds_alternative<Volume>(parsed));
    return in_mL(std::get<Volume>(parsed));
}

double g_of(const std::string& text) {
    const auto parsed = parse_mass(text);
    INFO(text);
    REQUIRE(std::holds_alternative<Mass>(parsed));
    return in_g(std::get<Mass>(parsed));
}

/// Runs GNU units, a converter with definitions of its own: `from` in terms of `to`.
double gnu_units(const std::string& from, const std::string& to) {
    const std::string command = "units -t -o %.15g '" + from + "' '" + to + "' 2>&1";
    const auto close = [](std::FILE* f) { pclose(f); };
    const std::unique_ptr<std::FILE, decltype(close)> pipe(popen(command.c_str(), "r"), close);
    REQUIRE(pipe);
    std::array<char, 200> line{};
    REQUIRE(std::fgets(line.data(), line.size(), pipe.get()) != nullptr);
    INFO(command << " (Debian package: units) says: " << line.data());
    char* end = nullptr;
    const double value = std::strtod(line.data(), &end);
    REQUIRE(end != line.data());
    return value;
}

constexpr double exact = 1e-12;  // relative: what doubles may lose on the way

}  // namespace

TEST_CASE("US measures as NIST Handbook 44, Appendix C gives them") {
    // Exact entries: the gallon is 231 cubic inches of 25.4 mm, with 4 quarts, 8 pints, 16 cups,
    // 128 fluid ounces; the tablespoon is half a fluid ounce, the teaspoon a third of that.
    const double gallon = 231 * 2.54 * 2.54 * 2.54;
    CHECK(mL_of("1 US gal") == Approx(gallon).epsilon(exact));
    CHECK(mL_of("1 US qt") == Approx(gallon / 4).epsilon(exact));
    CHECK(mL_of("1 US pt") == Approx(gallon / 8).epsilon(exact));
    CHECK(mL_of("1 US cup") == Approx(gallon / 16).epsilon(exact));
    CHECK(mL_of("1 US fl oz") == Approx(gallon / 128).epsilon(exact));
    CHECK(mL_of("1 US tbsp") == Approx(gallon / 256).epsilon(exact));
    CHECK(mL_of("1 US tsp") == Approx(gallon / 768).epsilon(exact));
    // Its rounded entries in millilitres, section 4.
    CHECK(mL_of("1 US cup") == Approx(237).margin(0.5));
    CHECK(mL_of("1 US tbsp") == Approx(15).margin(0.5));
    CHECK(mL_of("1 US tsp") == Approx(5).margin(0.5));
    CHECK(mL_of("1/8 US fl oz") == Approx(3.697).margin(0.0005));  // the fluid dram
    // 1 avoirdupois pound = 453.59237 g = 7000 grains, ounce 28.349523125 g, grain 64.79891 mg.
    CHECK(g_of("1 lb") == Approx(453.59237).epsilon(exact));
    CHECK(g_of("7000 gr") == Approx(453.59237).epsilon(exact));
    CHECK(g_of("1 oz") == Approx(28.349523125).epsilon(exact));
    CHECK(g_of("1 gr") == Approx(0.06479891).epsilon(exact));
}

TEST_CASE("rounded US measures as 21 CFR 101.9(b)(5)(viii) gives them") {
    CHECK(mL_of("1 tsp", KitchenSystem::us_label) == Approx(5).epsilon(exact));
    CHECK(mL_of("1 tbsp", KitchenSystem::us_label) == Approx(15).epsilon(exact));
    CHECK(mL_of("1 cup", KitchenSystem::us_label) == Approx(240).epsilon(exact));
    CHECK(mL_of("1 fl oz", KitchenSystem::us_label) == Approx(30).epsilon(exact));
}

TEST_CASE("metric and Australian spoons as the NSW Health Kids conversion chart gives them") {
    CHECK(mL_of("1 tsp", KitchenSystem::australian) == Approx(5).epsilon(exact));
    CHECK(mL_of("1 tbsp", KitchenSystem::australian) == Approx(20).epsilon(exact));
    CHECK(mL_of("1 cup", KitchenSystem::australian) == Approx(250).epsilon(exact));
    CHECK(mL_of("1 tsp", KitchenSystem::metric) == Approx(5).epsilon(exact));
    CHECK(mL_of("1 tbsp", KitchenSystem::metric) == Approx(15).epsilon(exact));
    CHECK(mL_of("1 cup", KitchenSystem::metric) == Approx(250).epsilon(exact));
}

TEST_CASE("common practice, no source: 12 mL is 0.811 US tablespoon") {
    CHECK(12 / mL_of("1 US tbsp") == Approx(0.811).margin(0.001));
    CHECK(12 / mL_of("1 AU tbsp") == Approx(0.6));
}

TEST_CASE("every unit agrees with GNU units, run as a program") {
    struct Case {
        std::string ours, theirs, base;
        KitchenSystem kitchen = KitchenSystem::metric;
    };
    // Beware of its names: "brtablespoon" is the modern 15 mL spoon (its own comment gives 5/8
    // brfloz for the old one), and a bare "tablespoon" follows its locale.
    const std::vector<Case> volumes = {
        {"1 US tsp", "usteaspoon", "ml"},
        {"1 US tbsp", "ustablespoon", "ml"},
        {"1 US cup", "uscup", "ml"},
        {"1 US fl oz", "usfluidounce", "ml"},
        {"1 US pt", "uspint", "ml"},
        {"1 US qt", "usquart", "ml"},
        {"1 US gal", "usgallon", "ml"},
        {"1 label tbsp", "legaltablespoon", "ml"},
        {"1 label tsp", "1|3 legaltablespoon", "ml"},
        {"1 label cup", "legalcup", "ml"},
        {"1 label fl oz", "1|8 legalcup", "ml"},
        {"1 AU tbsp", "australiatablespoon", "ml"},
        {"1 AU tsp", "australiateaspoon", "ml"},
        {"1 AU cup", "metriccup", "ml"},
        {"1 metric cup", "metriccup", "ml"},
        {"1 metric tbsp", "brtablespoon", "ml"},
        {"1 metric tsp", "brteaspoon", "ml"},
        {"1 imperial tbsp", "5|8 brfluidounce", "ml"},
        {"1 imperial tsp", "5|24 brfluidounce", "ml"},
        {"1 imperial cup", "brcup", "ml"},
        {"1 imperial fl oz", "brfluidounce", "ml"},
        {"1 imperial pt", "brpint", "ml"},
        {"1 imperial qt", "brquart", "ml"},
        {"1 imperial gal", "brgallon", "ml"},
        {"1 tbsp", "ustablespoon", "ml", KitchenSystem::us},
        {"1 tbsp", "5|8 brfluidounce", "ml", KitchenSystem::imperial},
        {"1 gallon", "brgallon", "ml", KitchenSystem::imperial},
        {"1 mL", "ml", "ml"},
        {"1 cL", "cl", "ml"},
        {"1 dL", "dl", "ml"},
        {"1 L", "liter", "ml"},
        {"1 litre", "liter", "ml"},
        {"1 uL", "microliter", "ml"},
        {"1 \u00B5L", "microliter", "ml"},
        {"1 \u03BCL", "microliter", "ml"},
        {"1 cm3", "cm^3", "ml"},
    };
    for (const Case& c : volumes) {
        INFO(c.ours << " against " << c.theirs);
        CHECK(mL_of(c.ours, c.kitchen) == Approx(gnu_units(c.theirs, c.base)).epsilon(1e-9));
    }
    for (const Case& c : std::vector<Case>{{"1 mg", "mg", "g"},
                                           {"1 g", "g", "g"},
                                           {"1 kg", "kg", "g"},
                                           {"1 oz", "ounce", "g"},
                                           {"1 lb", "pound", "g"},
                                           {"1 gr", "grain", "g"}}) {
        INFO(c.ours << " against " << c.theirs);
        CHECK(g_of(c.ours) == Approx(gnu_units("1 " + c.theirs, c.base)).epsilon(1e-9));
    }
    const auto si_of = [](const std::string& unit) {
        const auto found = find_unit(unit, KitchenSystem::metric);
        INFO(unit);
        REQUIRE(found);
        return found->si;
    };
    for (const Case& c : std::vector<Case>{{"mm", "mm", "m"},
                                           {"cm", "cm", "m"},
                                           {"m", "m", "m"},
                                           {"in", "inch", "m"},
                                           {"ft", "foot", "m"},
                                           {"m2", "m^2", "m^2"},
                                           {"cm2", "cm^2", "m^2"},
                                           {"mm2", "mm^2", "m^2"},
                                           {"ft2", "ft^2", "m^2"},
                                           {"in2", "in^2", "m^2"},
                                           {"cm\u00B2", "cm^2", "m^2"},
                                           {"sq ft", "ft^2", "m^2"},
                                           {"min", "minute", "s"},
                                           {"h", "hour", "s"},
                                           {"d", "day", "s"},
                                           {"wk", "week", "s"},
                                           {"hr", "hour", "s"},
                                           {"hrs", "hour", "s"},
                                           {"mins", "minute", "s"},
                                           {"wks", "week", "s"},
                                           {"days", "day", "s"},
                                           {"g/mL", "g/ml", "kg/m^3"},
                                           {"g/cm3", "g/cm^3", "kg/m^3"},
                                           {"kg/L", "kg/liter", "kg/m^3"},
                                           {"kg/m3", "kg/m^3", "kg/m^3"}}) {
        INFO(c.ours << " against " << c.theirs);
        CHECK(si_of(c.ours) == Approx(gnu_units("1 " + c.theirs, c.base)).epsilon(1e-9));
    }
    for (const std::string degrees : {"-40", "32", "50", "98.6", "212"}) {
        const auto parsed = parse_temperature(degrees + " F");
        REQUIRE(std::holds_alternative<Celsius>(parsed));
        CHECK(std::get<Celsius>(parsed).degrees ==
              Approx(gnu_units("tempF(" + degrees + ")", "tempC")).epsilon(1e-9).margin(1e-9));
    }
}

TEST_CASE("every name listed for a dimension is a unit of it, once") {
    for (const Dimension d :
         {Dimension::volume, Dimension::mass, Dimension::length, Dimension::area,
          Dimension::duration, Dimension::density, Dimension::temperature, Dimension::share}) {
        const auto names = unit_names(d);
        REQUIRE_FALSE(names.empty());
        CHECK(names.front() == usual_unit(d));
        for (const std::string& name : names) {
            INFO(name);
            // Bare pints have a size in the US kitchen.
            const auto unit = find_unit(name, KitchenSystem::us);
            REQUIRE(unit);
            CHECK(unit->dimension == d);
            CHECK(unit->si > 0);
            CHECK(std::count(names.begin(), names.end(), name) == 1);
        }
    }
}

TEST_CASE("pints, quarts, gallons and fluid ounces have no size of their own in a metric kitchen") {
    for (const std::string name : {"pt", "qt", "gal", "fl oz", "pints"}) {
        CHECK(needs_system(name, KitchenSystem::metric));
        CHECK(needs_system(name, KitchenSystem::australian));
        CHECK_FALSE(find_unit(name, KitchenSystem::metric));
        CHECK_FALSE(needs_system(name, KitchenSystem::us));
        CHECK_FALSE(needs_system(name, KitchenSystem::imperial));
    }
    CHECK_FALSE(needs_system("tbsp", KitchenSystem::metric));
    CHECK_FALSE(needs_system("mL", KitchenSystem::metric));
    CHECK_FALSE(needs_system("US pt", KitchenSystem::metric));
    CHECK(needs_system("metric pt", KitchenSystem::us));
}

TEST_CASE("a quantity's unit is known by its name in full and has GNU units' size") {
    struct Case {
        std::string written, in_full, theirs, base;
    };
    // GNU units in m3, kg, m and m2; "brpint" and the like are its imperial ones.
    for (const Case& c : std::vector<Case>{{"1 1/2 US tsp", "teaspoon", "ustsp", "m^3"},
                                           {"\u00BD US tbsp", "tablespoon", "ustbsp", "m^3"},
                                           {"2 US cups", "cup", "uscup", "m^3"},
                                           {"3 US fl oz", "fluid ounce", "usfloz", "m^3"},
                                           {"1 US pt", "pint", "uspint", "m^3"},
                                           {"1 imperial pints", "pint", "brpint", "m^3"},
                                           {"1 US quart", "quart", "usquart", "m^3"},
                                           {"1 US gallon", "gallon", "usgallon", "m^3"},
                                           {"0.1 oz", "ounce", "ounce", "kg"},
                                           {"1 lb", "pound", "pound", "kg"},
                                           {"5 lbs", "pound", "pound", "kg"},
                                           {"7 gr", "grain", "grain", "kg"},
                                           {"3 in", "inch", "inch", "m"},
                                           {"3 ft", "foot", "foot", "m"},
                                           {"40 sq ft", "square foot", "ft^2", "m^2"},
                                           {"40 ft2", "square foot", "ft^2", "m^2"},
                                           {"2 in\u00B2", "square inch", "inch^2", "m^2"}}) {
        INFO(c.written);
        const WrittenUnit unit = written_unit(c.written, KitchenSystem::metric);
        CHECK(unit.name == c.in_full);
        CHECK_FALSE(unit.metric());
        CHECK(unit.si == Approx(gnu_units("1 " + c.theirs, c.base)).epsilon(1e-9));
        if (!c.theirs.starts_with("br")) {
            CHECK(unit_in_full(c.in_full, KitchenSystem::us) == unit);
        }
    }
    CHECK(written_unit("half a cup", KitchenSystem::us) ==
          written_unit("1 cup", KitchenSystem::us));
    CHECK(written_unit("1 cup", KitchenSystem::us).si * 1e6 == Approx(236.5882365));
    CHECK(written_unit("1 cup", KitchenSystem::australian).si * 1e6 == Approx(250));
    for (const std::string metric :
         {"45 mL", "1 L", "2 kg", "6 m2", "as written", "3 times", "1 pt", ""}) {
        INFO(metric);
        CHECK(written_unit(metric, KitchenSystem::metric).metric());
    }
    CHECK_THROWS_AS(unit_in_full("pint", KitchenSystem::metric), std::logic_error);
}

TEST_CASE("a unit needs its kitchen's name where a bare one has another size or none") {
    const auto needs = [](const std::string& written, KitchenSystem usual) {
        return needs_naming(written_unit(written, usual), usual);
    };
    for (const std::string bare : {"1 tsp", "1 tbsp", "1 cup", "1 oz", "1 sq ft", "45 mL"}) {
        INFO(bare);
        for (const KitchenSystem kitchen :
             {KitchenSystem::us, KitchenSystem::us_label, KitchenSystem::metric,
              KitchenSystem::australian, KitchenSystem::imperial})
            CHECK_FALSE(needs(bare, kitchen));
    }
    CHECK(needs("1 US cup", KitchenSystem::metric));
    CHECK(needs("1 metric cup", KitchenSystem::us));
    CHECK(needs("1 US pt", KitchenSystem::metric));
    CHECK(needs("1 US pt", KitchenSystem::imperial));
    CHECK(needs("1 AU tbsp", KitchenSystem::metric));
    CHECK_FALSE(needs("1 AU tsp", KitchenSystem::metric));  // 5 mL either way
    CHECK_FALSE(needs("1 label pt", KitchenSystem::us));
}
