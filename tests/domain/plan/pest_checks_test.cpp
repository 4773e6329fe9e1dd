#include "domain/plan/pest_checks.hpp"

#include "planned.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using Catch::Matchers::ContainsSubstring;

namespace {

/// A mix against a pest, set out in one cup or sprayed, and what is found of it, warnings included.
Planned against(const std::string& pest, const std::string& form = "liquid",
                const std::string& region = "US") {
    const bool spray = form == "spray";
    const std::string amounts =
        form == "dry" ? "boric acid: 30, flour: 70" : "boric acid: 1, water: rest";
    std::string text = "title: Test hall\nprepared: 2027-03-02\nhelp: { region: " + region +
                       ", contact: { name: Keeper, phone: 555 } }\nmixes:\n  m:\n    title: Mix\n"
                       "    against: " +
                       pest + "\n    form: " + form +
                       "\n    basis: percent w/w\n    ingredients: { " + amounts +
                       " }\n    batch: 1 L\ncontainers:\n  cup: { holds: 300 mL, fill: 200 mL }\n"
                       "stations:\n  - { id: A1, place: Hall, mix: m, " +
                       (spray ? "area: 2 m2" : "container: cup") + " }\n";
    return plan_of(text);
}

std::string codes(const Planned& it) {
    std::string all;
    for (const auto& found : it.out.in_order()) {
        // How many baits are few has tests of its own: see placements_test.cpp.
        if (found.code == "no-measures" || found.code == "few-baits") continue;
        all += (all.empty() ? "" : " ") + found.code;
    }
    return all;
}

/// Of the first finding that has a line.
std::string hint(const Planned& it) {
    return it.out.in_order().front().hint.english();
}

}  // namespace

TEST_CASE("a pest without published support is an error that says what to do instead") {
    for (const char* pest : {"rats", "bed bugs", "earwigs", "Bettwanzen", "щурів"}) {
        const auto it = against(pest);
        INFO(pest);
        CHECK(codes(it) == "no-published-support");
        CHECK(it.out.has_errors());
    }
    CHECK_THAT(hint(against("bed bugs")), ContainsSubstring("licensed professional") &&
                                              ContainsSubstring("accept: [no-published-support]"));
    // One that is not in the table is as unsupported, and a slip is put right.
    CHECK(codes(against("possums")) == "no-published-support");
    CHECK_THAT(hint(against("antss")), ContainsSubstring("'ants'"));
}

TEST_CASE("a pest on which the trials contradict each other is advised against") {
    CHECK(codes(against("house flies")) == "advised-against");
    CHECK_THAT(against("flies").message("advised-against"),
               ContainsSubstring("Balme") && ContainsSubstring("Hogsette"));
}

TEST_CASE("a food bait against termites is an error, a spray is served") {
    for (const char* form : {"liquid", "dry", "paste"}) {
        INFO(form);
        const auto it = against("white ants", form);
        CHECK(it.out.has_errors());
        CHECK(it.warns("termite-food-bait"));
    }
    auto spray = against("white ants", "spray");
    CHECK_FALSE(spray.warns("termite-food-bait"));
    // 1 % boric acid is far below the 12 to 18 % that are published.
    CHECK(spray.warns("far-from-usual"));
    CHECK(against("Hausbockkäfer", "liquid").warns("no-published-support"));
    // Another form is another recipe: none is told to be written.
    for (const auto& found : against("wood borers", "liquid").out.in_order()) {
        if (found.code != "no-published-support") continue;
        CHECK_THAT(found.hint.english(), ContainsSubstring("treat the wood they live in") &&
                                             !ContainsSubstring("form:") &&
                                             !ContainsSubstring("write"));
    }
    CHECK_FALSE(against("Hausbockkäfer", "spray").out.has_errors());
}

TEST_CASE("a termite spray warns until somebody licensed has looked") {
    const auto sprayed = [](const std::string& inspected) {
        return plan_of(head +
                       "mixes:\n  m: { title: Mix, against: anay, form: spray, basis: percent w/w, "
                       "ingredients: { disodium octaborate: 11, water: rest } }\n"
                       "stations:\n  - { id: A1, place: Sill, mix: m, area: 2 m2" +
                       inspected + " }\n");
    };
    const auto open = sprayed("");
    CHECK_FALSE(open.out.has_errors());
    CHECK(open.warns("not-inspected"));
    CHECK_FALSE(
        sprayed(", inspected: { by: Licensed inspector, on: 2027-02-22 }").warns("not-inspected"));
}

TEST_CASE("weak support, several pests and unpublished forms are warnings") {
    CHECK(codes(against("silverfish", "dry")) == "weak-support");
    CHECK(codes(against("ants, cockroaches")) == "several-pests");
    CHECK(codes(against("ants", "dry")) == "unpublished-form");
    CHECK(codes(against("cockroaches", "dry")).empty());
    CHECK(codes(against("ants")).empty());
}

TEST_CASE("fire ants are reported first in Australia") {
    CHECK(against("fire ants", "liquid", "AU").out.has_errors());
    CHECK(against("fire ants", "liquid", "AU").warns("report-first"));
    CHECK_FALSE(against("fire ants", "liquid", "US").warns("report-first"));
}

TEST_CASE("how much liquid stands in the house is held against what is published") {
    const auto cups = [](int count) {
        return plan_of(
            head +
            "mixes:\n  m: { title: Mix, against: ants, form: liquid, basis: percent w/w, "
            "ingredients: { boric acid: 1, water: rest }, batch: 2 L }\n"
            "containers:\n  cup: { holds: 60 mL, fill: 45 mL }\n"
            "stations:\n  - { id: A1, place: Hall, mix: m, container: cup, count: " +
            std::to_string(count) + " }\n");
    };
    // Two to four stations of 100 to 200 mL a house (Urban Insect Pests, CABI).
    const auto two = cups(2);
    CHECK_THAT(two.message("little-bait"), ContainsSubstring("90 mL") &&
                                               ContainsSubstring("200 to 800 mL") &&
                                               ContainsSubstring("CABI"));
    CHECK(cups(4).warns("little-bait"));
    CHECK_FALSE(cups(5).warns("little-bait"));
}

TEST_CASE("against pharaoh ants every room has bait") {
    const auto rooms = [](const std::string& second) {
        return plan_of(
            head +
            "mixes:\n  m: { title: Mix, against: pharaoh ants, form: liquid, basis: percent w/w, "
            "ingredients: { boric acid: 1, water: rest }, batch: 1 L }\n"
            "containers:\n  cup: { holds: 60 mL, fill: 45 mL }\n"
            "stations:\n  - { id: A1, place: Sink, mix: m, container: cup, at: [1, 1] }\n" +
            second +
            "floor_plan:\n  rooms:\n"
            "    - { name: Kitchen, outline: [[0, 0], [3, 0], [3, 3], [0, 3]] }\n"
            "    - { name: Bath, outline: [[3, 0], [5, 0], [5, 3], [3, 3]] }\n");
    };
    CHECK_THAT(rooms("").message("rooms-without-bait"),
               ContainsSubstring("Bath") && !ContainsSubstring("Kitchen"));
    CHECK_FALSE(rooms("  - { id: A2, place: Bath, mix: m, container: cup, at: [4, 1] }\n")
                    .warns("rooms-without-bait"));
}
