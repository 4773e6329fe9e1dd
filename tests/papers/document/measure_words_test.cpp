#include "papers/document/measure_words.hpp"

#include "catch_all.hpp"

#include "scenario.hpp"

using namespace gallipot;
using Kind = job::Measure::Kind;

namespace {

plan::MeasureStep scoop(const std::string& name, int times) {
    return {name,         Kind::scoop,   times,
            units::mL(1), units::Mass{}, units::written_unit(name, units::KitchenSystem::metric)};
}

std::string taken(std::vector<plan::MeasureStep> steps, bool powder,
                  const std::string& language = "en") {
    plan::Ingredient ingredient;
    ingredient.powder = powder;
    ingredient.mass = units::g(3.2);
    ingredient.volume = units::mL(254);
    ingredient.measures = std::move(steps);
    std::string text = text::plain(document::take(ingredient, tests::words_in(language)));
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at)) {
        text.replace(at, 2, "_");
    }
    return text;
}

}  // namespace

TEST_CASE("measures in kitchen words", "[measures]") {
    CHECK(taken({scoop("1/2 tsp", 1), scoop("1/4 tsp", 1)}, true) ==
          "¾_tsp level: one ½_tsp and one ¼_tsp");
    CHECK(taken({scoop("1 tbsp", 5)}, true) == "5_tbsp level");
    CHECK(taken({scoop("1/2 tsp", 1)}, true) == "½_tsp level");
    CHECK(taken({scoop("1/2 tsp", 3)}, true) == "1½_tsp level: three ½_tsp");
    CHECK(taken({scoop("1 tbsp", 2), scoop("1 tsp", 1)}, true) == "2_tbsp and 1_tsp level");
    CHECK(taken({scoop("1 tbsp", 2), scoop("1/2 tsp", 1)}, false) == "2_tbsp and ½_tsp");
    CHECK(taken({scoop("1/2 cup", 1)}, true) == "½_cup level");
    CHECK(taken({scoop("1 cup", 2)}, false) == "2_cups");
    CHECK(taken({scoop("1/3 cup", 12)}, true) == "4_cups level: 12 ⅓_cup");
    CHECK(taken({scoop("1 US tbsp", 3)}, true) == "3_tbsp (US) level");
    CHECK(taken({scoop("60 mL", 2)}, true) == "120_mL level: two 60_mL");
}

TEST_CASE("jug, syringe and scale", "[measures]") {
    CHECK(taken({{"jug", Kind::jug, 1, units::mL(250), {}}}, false) ==
          "250_mL in the jug, to the mark");
    CHECK(taken({{"jug", Kind::jug, 3, units::mL(500), {}}}, false) ==
          "500_mL in the jug, to the mark, 3 times");
    CHECK(taken({{"syringe", Kind::syringe, 1, units::mL(3.5), {}}}, false) ==
          "3.5_mL with the syringe");
    CHECK(taken({{"scale", Kind::scale, 1, {}, units::g(24)}}, true) == "24_g on the scale");
    CHECK(taken({{"jug", Kind::jug, 1, units::mL(250), {}}, scoop("1 tbsp", 1)}, false) ==
          "250_mL in the jug, to the mark and 1_tbsp");
    CHECK(taken({{"scale", Kind::scale, 1, {}, units::g(2000)},
                 {"scale", Kind::scale, 1, {}, units::g(662)}},
                false) == "2_kg and 662_g on the scale, one after the other");
    CHECK(taken({{"jug", Kind::jug, 2, units::mL(500), {}},
                 {"jug", Kind::jug, 1, units::mL(225), {}}},
                false) == "two 500_mL and 225_mL in the jug, each to the mark");
}

TEST_CASE("nothing to measure with", "[measures]") {
    CHECK(taken({}, true) == "weigh 3.2_g");
    CHECK(taken({}, false) == "measure 254_mL");
}

TEST_CASE("kitchen fractions", "[measures]") {
    const auto words = tests::words_in("en");
    const auto shown = [&](double n) { return words.kitchen_number(n); };
    CHECK(shown(0.125) == "⅛");
    CHECK(shown(2.0 / 3) == "⅔");
    CHECK(shown(1.75) == "1¾");
    CHECK(shown(2.9999999999) == "3");
    CHECK(shown(12) == "12");
    CHECK(shown(0.3) == "0.30");
}
