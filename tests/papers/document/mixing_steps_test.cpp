#include "papers/document/mixing_steps.hpp"

#include "catch_all.hpp"

#include "scenario.hpp"

using namespace gallipot;

namespace {

std::string steps_of(const tests::Scenario& scenario, std::size_t mix) {
    const auto words = tests::words_in("en");
    std::string text;
    for (const auto& step : document::mixing_steps(
             document::recipe(scenario.job, scenario.plan, scenario.plan.mixes[mix], words))) {
        text += text::plain(step) + "\n";
    }
    return text;
}

bool in_order(const std::string& text, const std::vector<std::string>& parts) {
    std::size_t from = 0;
    for (const std::string& part : parts) {
        const auto at = text.find(part, from);
        if (at == std::string::npos) return false;
        from = at + part.size();
    }
    return true;
}

}  // namespace

TEST_CASE("a dry mix doubles until all is in", "[steps]") {
    CHECK(document::doublings(1) == 0);
    CHECK(document::doublings(1.05) == 0);
    CHECK(document::doublings(2) == 1);   // 2 parts in the jar, 1 more to come
    CHECK(document::doublings(3) == 1);   // 2, then 4
    CHECK(document::doublings(4) == 2);   // 2, 4, then the last one
    CHECK(document::doublings(7) == 2);   // 2, 4, 8
    CHECK(document::doublings(49) == 5);  // 2, 4, 8, 16, 32, then 50
}

TEST_CASE("water goes in warmer than it must be", "[steps]") {
    CHECK(document::water_temperature({25}).degrees == 35);
    CHECK(document::water_temperature({26}).degrees == 40);
    CHECK(document::water_temperature({46}).degrees == 60);
    CHECK(document::water_temperature({95}).degrees == 100);
}

TEST_CASE("a liquid that needs warm water", "[steps]") {
    const std::string steps = steps_of(tests::hall(), 0);
    INFO(steps);
    CHECK(in_order(
        steps, {"warm water into the mixing jug or pail: 35\u00A0°C, hand-warm",
                "Stir in the borax", "dissolves above", "Stir in the sugar until it is clear again",
                "hot closed bottle", "Fill each container with 45\u00A0mL", "Put the lids on",
                "lock it away", "1 April 2027", "Wash your hands"}));
}

TEST_CASE("a liquid that does not need it", "[steps]") {
    auto hall = tests::hall();
    hall.plan.mixes[0].warm_water = false;
    const std::string steps = steps_of(hall, 0);
    INFO(steps);
    CHECK(steps.find("Cold water will do") != std::string::npos);
    CHECK(steps.find("hot") == std::string::npos);
}

TEST_CASE("a sprayer's first rinse goes onto the same wood before it is washed", "[steps]") {
    const std::string steps = steps_of(tests::hall(), 2);
    INFO(steps);
    CHECK(in_order(
        steps, {"must be bare and dry", "drop of water", "must soak in", "Wet the bare, dry wood",
                "out until it is dry", "seal it with a finish", "lock it away",
                "Spray this first rinse onto the same wood", "Wash your hands"}));
    // Nothing to rinse where nothing is sprayed.
    CHECK(steps_of(tests::hall(), 0).find("rinse") == std::string::npos);
}

TEST_CASE("what will not dissolve is said and stirred", "[steps]") {
    auto hall = tests::hall();
    hall.plan.mixes[0].never_dissolves = true;
    hall.plan.mixes[0].dissolves_above.reset();
    const std::string steps = steps_of(hall, 0);
    INFO(steps);
    CHECK(steps.find("Some of it will not dissolve") != std::string::npos);
    CHECK(steps.find("clear") == std::string::npos);
}

TEST_CASE("scalding water is called so", "[steps]") {
    auto hall = tests::hall();
    hall.plan.mixes[0].dissolves_above = units::Celsius{58};
    CHECK(steps_of(hall, 0).find("It can scald") != std::string::npos);
}

TEST_CASE("a dry mix of unequal parts starts small", "[steps]") {
    auto hall = tests::hall();
    auto& mix = hall.plan.mixes[1];
    mix.ingredients[1].measured_volume = mix.ingredients[0].measured_volume * 7.0;
    const std::string steps = steps_of(hall, 1);
    INFO(steps);
    CHECK(in_order(steps, {"Sieve", "Put the borax in a dry jar with as much icing sugar",
                           "(about 2 times)", "dust settle", "level and not pressed down"}));
}

TEST_CASE("equal parts are shaken at once", "[steps]") {
    const std::string steps = steps_of(tests::hall(), 1);
    INFO(steps);
    CHECK(steps.find("Put the borax and the icing sugar in a dry jar") != std::string::npos);
    CHECK(steps.find("as much") == std::string::npos);
}

TEST_CASE("a paste is kneaded", "[steps]") {
    auto hall = tests::hall();
    hall.job.mixes[1].form.value = job::Form::paste;
    plan::Ingredient honey;
    honey.name = honey.substance = "honey";
    honey.measured_volume = units::mL(40);
    hall.plan.mixes[1].ingredients.push_back(honey);
    const std::string steps = steps_of(hall, 1);
    INFO(steps);
    CHECK(in_order(steps, {"Stir the dry powders together", "borax and icing sugar",
                           "Add the honey a little at a time"}));
}

TEST_CASE("a spray is clear before it goes into the sprayer", "[steps]") {
    const std::string steps = steps_of(tests::hall(), 2);
    INFO(steps);
    CHECK(in_order(
        steps, {"hot water into the mixing jug or pail: 60\u00A0°C", "Stir in the borax",
                "into the sprayer only when", "push a pointed tool into the wood",
                "Take off paint and finish", "The next coat goes on while the last is still damp",
                "S1, Stage, underside of the boards: 341\u00A0mL on 6\u00A0m², 2 times",
                "Keep people and pets out"}));
    // Borates soak in while the wood is damp: no coat dries before the next.
    CHECK(steps.find("Let each coat dry") == std::string::npos);
}
