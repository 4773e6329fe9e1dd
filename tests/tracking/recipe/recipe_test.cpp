#include "tracking/recipe/recipe.hpp"

#include "catch_all.hpp"

#include "tracking/recipe/former_station.hpp"

using namespace gallipot;
using namespace gallipot::recipe;

namespace {

/// 1 % borax and 25 % sugar, by mass, at 1.1 g/mL. Borax is 11.34 % boron, boric acid 17.48 %.
Recipe syrup() {
    Recipe recipe;
    recipe.parts = {{"borax", "borax", 0.01}, {"sugar", "sucrose", 0.25}, {"water", "water", 0.74}};
    recipe.density = units::Density::si(1100);
    recipe.boron = 0.01 * 0.1134;
    recipe.boric_acid_equivalent = recipe.boron / 0.1748;
    recipe.signal_word = safety::SignalWord::danger;
    recipe.hazard_codes = {"H360FD"};
    recipe.lasts = std::chrono::days(30);
    return recipe;
}

}  // namespace

TEST_CASE("a recipe is read from the log as it was written", "[recipe]") {
    CHECK(parse(print(syrup())) == syrup());
    Recipe keeps = syrup();
    keeps.lasts.reset();
    keeps.hazard_known = false;
    CHECK(parse(print(keeps)) == keeps);
    CHECK(print(syrup()) == print(syrup()));
    CHECK(print(syrup()) != print(keeps));
}

TEST_CASE("a text that is no recipe is none", "[recipe]") {
    const std::string good = print(syrup());
    CHECK_FALSE(parse(""));
    CHECK_FALSE(parse("null"));
    CHECK_FALSE(parse("[]"));
    CHECK_FALSE(parse(good.substr(0, good.size() - 1)));
    CHECK_FALSE(parse(std::string(100'000, '[')));
    const auto with = [&](const std::string& from, const std::string& to) {
        std::string text = good;
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    CHECK_FALSE(parse(with("0.25", "25")));
    CHECK_FALSE(parse(with("0.25", "-0.25")));
    CHECK_FALSE(parse(with("0.25", "\"a\"")));
    CHECK_FALSE(parse(with("1100.0", "0.0")));
    CHECK_FALSE(parse(with("\"lasts_days\":30", "\"lasts_days\":-1")));
    CHECK_FALSE(parse(with("\"signal_word\":3", "\"signal_word\":9")));
}

// By arithmetic: 45 mL at 1.1 g/mL are 49.5 g.
TEST_CASE("so much of a recipe holds its shares", "[recipe]") {
    const plan::Contents all = contents(syrup(), units::mL(45));
    CHECK(units::in_g(all.mass) == Approx(49.5));
    CHECK(units::in_g(all.ingredients[0].second) == Approx(0.495));
    CHECK(units::in_g(all.ingredients[1].second) == Approx(12.375));
    CHECK(units::in_g(all.boron) == Approx(0.495 * 0.1134));
    CHECK(units::in_g(all.boric_acid_equivalent) == Approx(0.495 * 0.1134 / 0.1748));
}

TEST_CASE("of two in one container the stronger is stated, of as strong ones the worse",
          "[recipe]") {
    Recipe strong = syrup();
    strong.boron *= 2;
    CHECK(&stronger(syrup(), strong) != nullptr);
    const Recipe weak = syrup();
    CHECK(&stronger(weak, strong) == &strong);
    CHECK(&stronger(strong, weak) == &strong);
    Recipe unknown = syrup();
    unknown.hazard_known = false;
    CHECK(&stronger(weak, unknown) == &unknown);
    CHECK(&stronger(unknown, weak) == &unknown);
}

TEST_CASE("what a station was is read from the log as it was written", "[recipe]") {
    const FormerStation bait{"ants", false, false, 2,
                             gallipot::visit::LocalTime(std::chrono::minutes(30'000'000))};
    const FormerStation control{"", true, false, 0, {}};
    CHECK(parse_station(print(bait)) == bait);
    CHECK(parse_station(print(control)) == control);
    CHECK_FALSE(parse_station(""));
    CHECK_FALSE(parse_station("{}"));
    CHECK_FALSE(parse_station(print(bait).replace(print(bait).find("30000000"), 8, "-3000000")));
}
