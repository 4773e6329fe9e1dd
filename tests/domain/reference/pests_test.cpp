#include "domain/reference/pests.hpp"

#include <set>
#include <string>

#include "catch_all.hpp"

#include "domain/reference/coverage.hpp"
#include "domain/reference/pests/fold_case.hpp"
#include "domain/reference/pests/pest_names.hpp"

using namespace gallipot;
using namespace gallipot::reference;

namespace {
std::string_view meant(std::string_view text) {
    const Pest* pest = find_pest(text);
    return pest ? pest->name : "none";
}
}  // namespace

TEST_CASE("a pest is found by what people call it") {
    CHECK(meant("ants") == "ants");
    CHECK(meant("Ant") == "ants");
    CHECK(meant("sugar ants, kitchen") == "ants");
    CHECK(meant("Hormigas") == "ants");
    CHECK(meant("cockroaches") == "cockroaches");
    CHECK(meant("German cockroach") == "cockroaches");
    CHECK(meant("wood borers") == "wood borers");
    CHECK(meant("carpenter ants in wood") == "carpenter ants");
    CHECK(meant("elephants") == "none");
    CHECK(meant("plants") == "none");
    CHECK(meant("") == "none");
    CHECK(meant(" , ") == "none");
}

// "White ants" and its like were taken for ants, and the verdict said "take it up".
TEST_CASE("termites are never ants in any language") {
    for (const char* name : {"termites",
                             "white ants",
                             "White Ants",
                             "the white  ants under the floor",
                             "WHITE-ANTS",
                             "flying white ants",
                             "hormigas blancas",
                             "Hormiga Blanca",
                             "comején",
                             "weiße Ameisen",
                             "WEISSE AMEISEN",
                             "gegen weiße Ameisen",
                             "WEIẞE AMEISEN",
                             "Weißameisen",
                             
                             "Bodentermiten",
                             "anay",
                             "mga Anay",
                             "терміти",
                             "ТЕРМІТИ",
                             "білі мурахи",
                             "проти термітів"}) {
        INFO(name);
        CHECK(meant(name) == ("termites"));
    }
}

TEST_CASE("German compounds match by their last part") {
    CHECK(meant("Holzameisen") == "ants");
    CHECK(meant("Wegameise") == "ants");
    CHECK(meant("Pharaoameisen") == "pharaoh ants");
    CHECK(meant("Rossameisen") == "carpenter ants");
    CHECK(meant("Bettwanzen") == "bed bugs");
    CHECK(meant("Hausbockkäfer") == "wood borers");
    CHECK(meant("HAUSBOCKKÄFER") == "wood borers");
    CHECK(meant("Waldschaben") == "cockroaches");
    CHECK(meant("Kellerasseln") == "woodlice");
    // What only begins like a pest, or ends like one and is none.
    CHECK(meant("Ameisenlöwe") == "none");
    CHECK(meant("Fledermäuse") == "none");
}

TEST_CASE("the longest phrase wins, and of several pests the one that calls for most caution") {
    CHECK(meant("fire ants") == "fire ants");
    CHECK(meant("hormigas de fuego") == "fire ants");
    CHECK(meant("pharaoh's ants") == "pharaoh ants");
    CHECK(meant("large cockroaches") == "large cockroaches");
    CHECK(meant("bukbok sa bigas") == "flour beetles");
    CHECK(meant("bukbok") == "wood borers");
    CHECK(meant("ants and termites") == "termites");
    CHECK(meant("ants, rats") == "rats and mice");
    CHECK(meant("ants and cockroaches") == "ants");
    CHECK(all_pests_in("ants and cockroaches").size() == 2);
    CHECK(all_pests_in("white ants").size() == 1);
}

TEST_CASE("letter case is folded in Latin and Cyrillic script") {
    CHECK(fold_case("AZaz09-") == "azaz09-");
    CHECK(fold_case("ÄÖÜẞÑÉ×÷ß") == "äöüßñé×÷ß");
    CHECK(fold_case("ŽŠČŁŸ") == "žščłÿ");
    CHECK(fold_case("ЄІЇҐАЯЁ") == "єіїґаяё");
    CHECK(fold_case("жук蟻\xff") == "жук蟻\xff");
}

TEST_CASE("every name is written in lower case, means one pest, and finds it") {
    std::set<std::string_view> pests_with_names;
    for (const Pest& pest : pests()) {
        for (const std::string_view name : names_of(pest)) {
            INFO(name);
            CHECK(fold_case(name) == name);
            CHECK(meant(name) == pest.name);
            pests_with_names.insert(pest.name);
        }
    }
    CHECK(pests_with_names.size() == pests().size());
    for (const PestNames& names : pest_names()) {
        INFO(names.pest);
        CHECK(pest_named(names.pest) != nullptr);
    }
}

TEST_CASE("every value of the table of pests names its source") {
    for (const Pest& pest : pests()) {
        INFO(pest.name);
        CHECK_FALSE(pest.support.source.empty());
        for (const UsualStrength& usual : pest.usual) {
            CHECK(usual.low <= usual.high);
            CHECK(usual.low.fraction > 0);
            CHECK_FALSE(usual.source.empty());
        }
        if (pest.result) {
            CHECK_FALSE(pest.result->source.empty());
            CHECK(pest.result->value.low <= pest.result->value.usual);
            CHECK(pest.result->value.usual <= pest.result->value.high);
        }
        if (pest.gone) CHECK_FALSE(pest.gone->source.empty());
        if (pest.liquid) {
            CHECK_FALSE(pest.liquid->source.empty());
            CHECK(pest.liquid->value.low <= pest.liquid->value.high);
            CHECK(pest.liquid->value.stations_low <= pest.liquid->value.stations_high);
        }
        if (pest.paste) {
            CHECK_FALSE(pest.paste->source.empty());
            CHECK(pest.paste->value.low <= pest.paste->value.high);
        }
        for (const auto& count : {pest.per_home, pest.per_kitchen, pest.per_bathroom}) {
            if (!count) continue;
            CHECK_FALSE(count->source.empty());
            CHECK(count->value.low > 0);
            CHECK(count->value.low <= count->value.high);
        }
        if (pest.spacing) {
            CHECK_FALSE(pest.spacing->source.empty());
            CHECK(pest.spacing->value.low < pest.spacing->value.high);
        }
        std::set<std::string_view> keys;
        for (const Advice& advice : pest.advice) {
            INFO(advice.key);
            CHECK_FALSE(advice.source.empty());
            CHECK(keys.insert(advice.key).second);
        }
        CHECK(pest.advice_on(Topic::count, "AU").size() <= 3);
    }
}

TEST_CASE("what has support has strengths or says that it is weak; what has none says what else") {
    for (const Pest& pest : pests()) {
        INFO(pest.name);
        const Support support = pest.support.value;
        if (support == Support::yes) CHECK_FALSE(pest.usual.empty());
        const bool advised_against = support == Support::conflicting || support == Support::none;
        CHECK(advised_against == !pest.instead.empty());
        // Never "gone", never a day by which it should have worked, for what lives in wood.
        if (pest.lives_in_wood) {
            CHECK_FALSE(pest.gone);
            CHECK_FALSE(pest.result);
        }
    }
    CHECK(pest_named("termites")->support.value == Support::weak);
    CHECK(pest_named("house flies")->support.value == Support::conflicting);
    CHECK(pest_named("bed bugs")->support.value == Support::none);
}

TEST_CASE("figures of the table are those of the sources") {
    // Klotz and others 1996 and Rust and others 2002; Gore and Schal 2004.
    CHECK(pest_named("ants")->usual.front().high.fraction == Approx(0.01));
    CHECK(pest_named("cockroaches")->usual.front().high.fraction == Approx(0.02));
    // 10 % and 15 % octaborate hold as much boron as 12 % and 18 % boric acid: 1.1991 (facts of the
    // table of substances).
    const UsualStrength& wood = pest_named("termites")->usual.front();
    CHECK(wood.low.fraction == Approx(0.10 * 1.1991).epsilon(0.01));
    CHECK(wood.high.fraction == Approx(0.15 * 1.1991).epsilon(0.01));
    // Urban Insect Pests (CABI): two to four stations of 100 to 200 mL a house.
    const LiquidPerHouse& liquid = pest_named("ants")->liquid->value;
    CHECK(units::in_mL(liquid.low) == Approx(2 * 100));
    CHECK(units::in_mL(liquid.high) == Approx(4 * 200));
    // Field Trials of Cockroach Baits (1989): 12 baits a flat, 7 in the kitchen (3 under the sink, 2
    // above it, 1 at the stove, 1 at the refrigerator), 2 in the bathroom, 3 elsewhere.
    const Pest& cockroaches = *pest_named("cockroaches");
    CHECK(cockroaches.per_kitchen->value.low == 3 + 2 + 1 + 1);
    CHECK(cockroaches.per_bathroom->value.low == 2);
    CHECK(cockroaches.per_home->value.low == 7 + 2 + 3);
    // University of Kentucky, at second hand: 10 and 2.
    CHECK(cockroaches.per_kitchen->value.high == 10);
    CHECK(cockroaches.per_bathroom->value.high == 2);
    // Miller (2019): a quarter of a tube of 30 g, to two tubes.
    CHECK(units::in_g(cockroaches.paste->value.low) == Approx(30.0 / 4));
    CHECK(units::in_g(cockroaches.paste->value.high) == Approx(2 * 30));
    CHECK_FALSE(pest_named("large cockroaches")->per_home);
    // UC Marin Master Gardeners: every 10 to 20 feet, rounded to whole metres.
    const Spacing& spacing = pest_named("ants")->spacing->value;
    CHECK(units::in_m(spacing.low) == Approx(10 * 0.3048).margin(0.1));
    CHECK(units::in_m(spacing.high) == Approx(20 * 0.3048).margin(0.1));
    // Egg cases of the German cockroach hatch at 28 to 30 days.
    CHECK(units::in_days(pest_named("cockroaches")->gone->value.none_seen_for) == Approx(45));
    CHECK(pest_named("cockroaches")->gone->value.empty_counts == 2);
}

TEST_CASE("a room's kind is what its name says, in every language of ours") {
    for (const char* name : {"Kitchen", "Staff kitchen, upstairs", "Cocina", "Küche", "Teeküche",
                             "KÜCHE", "Kusina", "Кухня", "На кухні"}) {
        INFO(name);
        CHECK(room_kind(name) == RoomKind::kitchen);
    }
    for (const char* name : {"Bathroom", "Baño", "Cuarto de baño", "Bad", "Badezimmer",
                             "Gästebad", "Banyo", "Ванна кімната", "Санвузол"}) {
        INFO(name);
        CHECK(room_kind(name) == RoomKind::bathroom);
    }
    for (const char* name : {"Yard", "Back garden", "Patio", "Balcón", "Hof", "Im Freien",
                             "Bakuran", "Двір", "Подвір’я"}) {
        INFO(name);
        CHECK(room_kind(name) == RoomKind::outdoors);
    }
    for (const char* name : {"Hall", "Kitchener Room", "Badminton hall", "Kindergarten", "Bahnhof",
                             "Sala", "Комора", ""}) {
        INFO(name);
        CHECK_FALSE(room_kind(name));
    }
    CHECK_FALSE(pest_named("cockroaches")->baits_in(RoomKind::outdoors));
}

TEST_CASE("advice for one region is told there alone") {
    const Pest& fire = *pest_named("fire ants");
    CHECK(fire.advice_on(Topic::warning, "AU").size() == 1);
    CHECK(fire.advice_on(Topic::warning, "US").empty());
}

TEST_CASE("seasons are those of the hemisphere") {
    CHECK(season_of(4, "US") == Season::spring);
    CHECK(season_of(3, "AU") == Season::autumn);
    CHECK(season_of(12, "AU") == Season::summer);
    CHECK(season_of(12, "GB") == Season::winter);
    CHECK(season_of(9, "DE") == Season::autumn);
    CHECK_FALSE(season_of(9, "PH"));
}

TEST_CASE("coverage is that of the source") {
    // A borate supplier: 1 US gallon (3.785 L) on 200 square feet (18.58 m2).
    const auto coat = coverage_per_coat(Preparation::spray);
    REQUIRE(coat);
    CHECK(units::in_mm(coat->value) == Approx(3.785 / 18.58).epsilon(1e-3));
    CHECK_FALSE(coverage_per_coat(Preparation::dry));
    CHECK_FALSE(coverage_per_coat(Preparation::paste));
}
