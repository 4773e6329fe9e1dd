#include <algorithm>
#include <cmath>
#include <random>

#include "catch_all.hpp"

#include "folder.hpp"

using namespace gallipot;
using text::Catalog;
using units::KitchenSystem;
using units::UnitSystem;
using units::WrittenUnit;

namespace {

Catalog shipped(const std::string& language, const std::string& region) {
    diag::Diagnostics out;
    Catalog catalog(tests::templates(), language, region, out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return catalog;
}

std::string seen(std::string text) {
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at))
        text.replace(at, 2, "_");
    return text;
}

WrittenUnit us(const std::string& written) {
    return units::written_unit(written, KitchenSystem::us);
}

/// The number an English text begins with, and the size of its last digit.
struct Shown {
    double value = 0, last_digit = 1;
};
Shown number_in(std::string text) {
    text = text.substr(0, text.find("\u00A0"));
    text.erase(std::remove(text.begin(), text.end(), ','), text.end());
    const auto point = text.find('.');
    if (point != std::string::npos)
        return {std::stod(text), std::pow(10.0, -double(text.size() - point - 1))};
    // Zeros behind three figures only hold the place.
    const auto digits = double(text.find_last_not_of('0') + 1);
    return {std::stod(text), std::pow(10.0, double(text.size()) - std::max(digits, 3.0))};
}

}  // namespace

TEST_CASE("an amount is told in the unit it was written in, metric beside", "[text]") {
    const auto words = shipped("en", "US");
    const auto mass = [&](double g, const char* unit) {
        return seen(words.mass(units::g(g), us(unit)));
    };
    // By hand from 1 oz = 28.349523125 g and 1 lb = 453.59237 g.
    CHECK(mass(28.349523125 * 8.3, "0.1 oz") == "8.3_oz (235_g)");
    CHECK(mass(28.349523125 * 8.25, "1 oz") == "8.25_oz (234_g)");
    CHECK(mass(28.349523125 / 16, "1 oz") == "0.0625_oz (1.8_g)");
    CHECK(mass(453.59237, "1 lb") == "1_lb (454_g)");
    CHECK(mass(1000, "1 lb") == "2.2_lb (1_kg)");
    CHECK(mass(6.479891, "1 gr") == "100_grains (6.5_g)");
    CHECK(mass(45, "1 g") == "45_g");

    const auto volume = [&](double mL, const char* unit) {
        return seen(words.volume(units::mL(mL), us(unit)));
    };
    // 1 tsp = 4.92892159375 mL, 1 tbsp = 3 tsp, 1 fl oz = 2 tbsp, 1 cup = 8 fl oz, 1 gal = 16 cup.
    CHECK(volume(236.5882365, "1 cup") == "1_cup (237_mL)");
    CHECK(volume(236.5882365 * 1.75, "1 cup") == "1¾_cups (414_mL)");
    CHECK(volume(236.5882365 * 5 / 3, "1 cup") == "1⅔_cups (394_mL)");
    CHECK(volume(14.78676478125, "1 tbsp") == "1_tbsp (15_mL)");
    CHECK(volume(4.92892159375 / 8, "1 tsp") == "⅛_tsp (0.62_mL)");
    CHECK(volume(29.5735295625 * 2.5, "1 fl oz") == "2.5_fl_oz (74_mL)");
    CHECK(volume(100, "1 cup") == "0.423_cup (100_mL)");
    CHECK(volume(3785.411784, "1 gal") == "1_gal (3.79_L)");
    CHECK(seen(words.area(units::square_inches(144 * 40), us("40 sq ft"))) == "40_sq_ft (3.7_m²)");
}

TEST_CASE("units in the other languages", "[text]") {
    const auto told = [](const std::string& language) {
        const auto words = shipped(language, "US");
        return seen(words.mass(units::g(28.349523125 * 8.5), us("1 oz")) + ", " +
                    words.volume(units::mL(14.78676478125 * 1.5), us("1 tbsp")) + ", " +
                    words.area(units::square_inches(144 * 40), us("1 ft2")));
    };
    CHECK(told("es") == "8.5_oz (241_g), 1½_cda. (22_ml), 40_ft² (3.7_m²)");
    CHECK(told("de") == "8,5_oz (241_g), 1½_EL (22_ml), 40_Quadratfuß (3,7_m²)");
    CHECK(told("fil") == "8.5_onsa (241_g), 1½_kutsara (22_mL), 40_talampakang_parisukat (3.7_m²)");
    CHECK(told("uk") == "8,5_унц. (241_г), 1½_ст._л. (22_мл), 40_кв._фут. (3,7_м²)");
}

TEST_CASE("what nobody wrote is told as the job says", "[text]") {
    auto words = shipped("de", "US");
    const auto all = [&](const Catalog& in) {
        return seen(in.usual(units::mL(240)) + ", " + in.usual(units::g(100)) + ", " +
                    in.usual(units::m2(6)) + ", " + in.usual(units::m(3)) + ", " +
                    in.temperature({40}));
    };
    // 3 m / 0.3048 = 9.842519685; 6 m2 / 0.09290304 = 64.58346; 240 mL / 29.5735295625 = 8.115366;
    // 100 g / 28.349523125 = 3.527396; 40 C = 104 F.
    CHECK(all(words) == "240_ml, 100_g, 64,6_Quadratfuß (6_m²), 9,8_Fuß (3 m), 104_°F (40_°C)");
    words.show_in({UnitSystem::us, UnitSystem::us, KitchenSystem::us});
    CHECK(all(words) ==
          "8,12_fl_oz (240_ml), 3,53_oz (100_g), 64,6_Quadratfuß (6_m²), 9,8_Fuß (3 m), 104_°F "
          "(40_°C)");
    words.show_in({UnitSystem::metric, UnitSystem::metric, KitchenSystem::us});
    CHECK(all(words) == "240_ml, 100_g, 6_m², 3 m, 40_°C");
    words.show_in({UnitSystem::us, UnitSystem::us, KitchenSystem::us});
    CHECK(seen(words.usual(units::mL(4.92892159375))) == "1_TL (4,9_ml)");
    CHECK(seen(words.usual(units::mL(3785.411784 * 2))) == "2_gal (7,57_l)");
    CHECK(seen(words.usual(units::g(453.59237 * 1.5))) == "1,5_lb (680_g)");
    // 63 oz on a scale is 3.9375 lb: no more figures than it deserves, where nobody wrote it.
    CHECK(seen(words.usual(units::g(453.59237 * 3.9375))) == "3,94_lb (1,79_kg)");
    CHECK(seen(words.computed(units::g(453.59237 * 0.9875), us("1 lb"))) == "0,988_lb (448_g)");
    CHECK(seen(words.mass(units::g(453.59237 * 0.9875), us("1 lb"))) == "0,9875_lb (448_g)");
}

TEST_CASE("it is said which cup, where the readers' own is another", "[text]") {
    auto words = shipped("en", "GB");
    const auto two = [](const Catalog& in, const std::string& written, KitchenSystem kitchen) {
        const WrittenUnit unit = units::written_unit(written, kitchen);
        return seen(in.volume(units::Volume::si(unit.si * 2), unit));
    };
    const auto cups = [&](const std::string& written, KitchenSystem kitchen) {
        return two(words, written, kitchen);
    };
    // 2 x 236.5882365, 2 x 250, 2 x 284.130625 and 2 x 240 mL (21 CFR 101.9).
    CHECK(cups("1 cup", KitchenSystem::us) == "2_cups (US, 473_mL)");
    CHECK(cups("1 US cup", KitchenSystem::metric) == "2_cups (US, 473_mL)");
    CHECK(cups("1 cup", KitchenSystem::metric) == "2_cups (500_mL)");
    CHECK(cups("1 AU cup", KitchenSystem::metric) == "2_cups (500_mL)");  // the same size
    CHECK(cups("1 imperial cup", KitchenSystem::metric) == "2_cups (imperial, 568_mL)");
    CHECK(cups("1 label cup", KitchenSystem::metric) == "2_cups (US food label, 480_mL)");
    CHECK(cups("1 AU tbsp", KitchenSystem::metric) == "2_tbsp (Australian, 40_mL)");
    // There are no metric pints, so a bare one would be nobody's.
    CHECK(cups("1 US pt", KitchenSystem::metric) == "2_pt (US, 946_mL)");
    // Ounces of mass are one size everywhere.
    CHECK(seen(words.mass(units::g(28.349523125), us("1 oz"))) == "1_oz (28_g)");
    CHECK(seen(words.spoonfuls(1.5, us("1 cup"))) == "1½_cups (US)");
    words.show_in({UnitSystem::us, UnitSystem::us, KitchenSystem::us});
    CHECK(cups("1 cup", KitchenSystem::us) == "2_cups (473_mL)");
    CHECK(cups("1 cup", KitchenSystem::metric) == "2_cups (metric, 500_mL)");
    CHECK(seen(words.spoonfuls(1.5, us("1 cup"))) == "1½_cups");
    // A job elsewhere that asks for US units.
    words.show_in({UnitSystem::us, UnitSystem::us, KitchenSystem::australian});
    CHECK(seen(words.usual(units::mL(29.5735295625 * 8))) == "8_fl_oz (US, 237_mL)");

    const std::pair<const char*, const char*> others[] = {
        {"de", "2_Tassen (US, 473_ml)"},
        {"es", "2_tazas (medida de EE. UU., 473_ml)"},
        {"fil", "2_tasa (sukat ng US, 473_mL)"},
        {"uk", "2_скл. (міра США, 473_мл)"}};
    for (const auto& [language, expected] : others) {
        const auto other = shipped(language, "GB");
        CHECK(two(other, "1 US cup", KitchenSystem::metric) == expected);
    }
}

TEST_CASE("a shown amount times its unit is the amount to the last digit shown", "[text]") {
    const auto words = shipped("en", "AU");
    std::mt19937 random(20260321);  // NOLINT(cert-msc32-c,cert-msc51-cpp): the same each time
    const std::vector<std::string> masses = {"1 oz", "1 lb", "1 gr"};
    const std::vector<std::string> volumes = {"1 fl oz", "1 pt", "1 qt", "1 gal"};
    const std::vector<KitchenSystem> kitchens = {KitchenSystem::us, KitchenSystem::imperial};
    std::uniform_real_distribution<double> exponent(-3, 4);
    for (int i = 0; i < 5000; ++i) {
        const double amount = std::pow(10.0, exponent(random));
        const auto check = [&](double si, const WrittenUnit& unit, const std::string& text) {
            INFO(text << " for " << si);
            const Shown shown = number_in(text);
            CHECK(std::abs(shown.value - si / unit.si) <= shown.last_digit * 0.5000001);
            CHECK(shown.last_digit <= std::max(shown.value, 1e-3));
        };
        const WrittenUnit mass = us(masses[i % masses.size()]);
        check(amount * mass.si, mass, words.mass(units::Mass::si(amount * mass.si), mass));
        const WrittenUnit volume =
            units::written_unit(volumes[i % volumes.size()], kitchens[i % 2]);
        check(amount * volume.si, volume,
              words.volume(units::Volume::si(amount * volume.si), volume));
        const WrittenUnit area = us(i % 2 == 0 ? "1 sq ft" : "1 in2");
        check(amount * area.si, area, words.area(units::Area::si(amount * area.si), area));
    }
}
