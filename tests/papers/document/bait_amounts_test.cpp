#include "papers/document/bait_amounts.hpp"

#include <algorithm>
#include <set>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "languages.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/plain_text.hpp"
#include "scenario.hpp"

using namespace gallipot;
using reference::Pest;

namespace {

struct Sample {
    job::Job job;
    plan::Plan plan;
};

Sample sample(const std::string& text) {
    diag::Diagnostics out;
    const auto job =
        job::read_job(std::make_shared<const diag::Source>(diag::Source{"job.yaml", text}), out);
    INFO(diag::print(out));
    REQUIRE(job);
    Sample made{*job, {}};
    made.plan = plan::make_plan(made.job, {}, out);
    return made;
}

/// A home with one mix of the form against a pest: bait in kitchen and bathroom, and two cups 1 m
/// apart outside the walls.
Sample home_against(const std::string& pest, const std::string& form) {
    const std::string recipe = form == "dry"     ? "boric acid: 30, flour: 70"
                               : form == "paste" ? "boric acid: 40, sugar: 40, water: rest"
                                                 : "boric acid: 1, sugar: 25, water: rest";
    return sample(
        "title: Test home\nprepared: 2027-03-02\nhelp: { region: US, contact: { name: Keeper, "
        "phone: 555 } }\nmixes:\n  m:\n    title: Mix\n    against: " +
        pest + "\n    form: " + form + "\n    basis: percent w/w\n    ingredients: { " + recipe +
        " }\ncontainers:\n  cup: { holds: 60 mL, fill: 45 mL }\nstations:\n"
        "  - { id: K1, place: behind the range, mix: m, container: cup, count: 3, at: [1, 1] }\n"
        "  - { id: B1, place: under the basin, mix: m, container: cup, at: [4, 1] }\n"
        "  - { id: Y1, place: wall, mix: m, container: cup, at: [7, 1] }\n"
        "  - { id: Y2, place: wall, mix: m, container: cup, at: [8, 1] }\n"
        "floor_plan:\n  rooms:\n"
        "    - { name: Kitchen, outline: [[0, 0], [3, 0], [3, 3], [0, 3]] }\n"
        "    - { name: Bathroom, outline: [[3, 0], [5, 0], [5, 3], [3, 3]] }\n");
}

/// "here | published" of every row, by what stands first in it.
std::vector<std::string> rows_of(const std::vector<document::Block>& blocks) {
    std::vector<std::string> rows;
    if (blocks.empty()) return rows;
    for (const auto& row : std::get<document::Table>(blocks.front()).rows)
        rows.push_back(text::plain(row[0].text) + " | " + text::plain(row[1].text) + " | " +
                       text::plain(row[2].text));
    for (std::string& row : rows) {
        // No-break spaces as blanks.
        for (std::size_t at = 0; (at = row.find("\u00A0", at)) != std::string::npos;)
            row.replace(at, std::string("\u00A0").size(), " ");
    }
    return rows;
}

std::string sources_of(const std::vector<document::Block>& blocks) {
    return text::plain(std::get<document::Paragraph>(blocks.back()).text);
}

}  // namespace

TEST_CASE("what is set out stands beside what is published, with the source", "[placement]") {
    const text::Catalog words = tests::words_in("en", "US");
    using Rows = std::vector<std::string>;
    const auto ants = home_against("ants", "liquid");
    const auto against_ants =
        document::bait_amounts(ants.job, ants.plan, *reference::pest_named("ants"), words);
    CHECK(rows_of(against_ants) ==
          Rows{"The whole building | 270 mL of liquid in 6 containers | 200 mL to 800 mL a house, "
               "in 2 to 4 containers",
               // 1, 3 and 6 m over 0.3048 m: 3.2808, 9.8425 and 19.685 ft.
               "From Y1 to Y2, outdoors | 3.3 ft (1 m) apart | 9.8 ft (3 m) to 20 ft (6 m) apart "
               "along an outside wall"});
    CHECK(sources_of(against_ants).find("CABI") != std::string::npos);
    CHECK(sources_of(against_ants).find("UC Marin") != std::string::npos);

    const auto dry = home_against("cockroaches", "dry");
    const auto against_cockroaches =
        document::bait_amounts(dry.job, dry.plan, *reference::pest_named("cockroaches"), words);
    CHECK(rows_of(against_cockroaches) ==
          Rows{"The whole building | 6 containers | 12 containers a home",
               "Kitchen | 3 containers | 7 to 10 containers a kitchen",
               "Bathroom | 1 container | 2 containers a bathroom"});
    CHECK(sources_of(against_cockroaches).find("ready-made") != std::string::npos);
}

TEST_CASE("a room that a station says in a key of its own is counted by its name", "[placement]") {
    const auto home = sample(
        "title: Test home\nprepared: 2027-03-02\nlanguages: [en, de]\n"
        "help: { region: DE, contact: { name: Keeper, phone: 555 } }\n"
        "mixes:\n  m: { title: Mix, against: cockroaches, form: dry, basis: percent w/w, "
        "ingredients: { boric acid: 30, flour: 70 } }\n"
        "containers:\n  cup: { holds: 60 mL, fill: 45 mL }\nstations:\n"
        "  - { id: K1, room: { en: Kitchen, de: Küche }, place: { en: 'Shelf, left', de: 'Regal, "
        "links' }, mix: m, container: cup, count: 3 }\n"
        "  - { id: K2, place: { en: 'Kitchen, sink', de: 'Küche, Spüle' }, mix: m, container: cup "
        "}\n");
    const auto rows = [&](const char* language) {
        return rows_of(document::bait_amounts(home.job, home.plan,
                                              *reference::pest_named("cockroaches"),
                                              tests::words_in(language, "DE")));
    };
    CHECK(rows("en").at(1) == "Kitchen | 4 containers | 7 to 10 containers a kitchen");
    CHECK(rows("de").at(1).starts_with("Küche | 4 "));
    CHECK(rows("en").size() == 2);
}

TEST_CASE("every figure on the placement plan stands in the pest's row", "[placement]") {
    const text::Catalog words = tests::words_in("en", "US");
    for (const Pest& pest : reference::pests()) {
        if (pest.lives_in_wood || (pest.support.value != reference::Support::yes &&
                                   pest.support.value != reference::Support::weak))
            continue;
        for (const char* form : {"liquid", "dry", "paste"}) {
            INFO(pest.name << " " << form);
            const auto home = home_against(std::string(pest.name), form);
            const auto blocks = document::bait_amounts(home.job, home.plan, pest, words);
            const bool liquid = pest.liquid && std::string(form) == "liquid";
            const bool paste = pest.paste && std::string(form) == "paste";
            const int expected = int{liquid} + int{paste} + int{pest.per_home.has_value()} +
                                 int{pest.per_kitchen.has_value()} +
                                 int{pest.per_bathroom.has_value()} + int{pest.spacing.has_value()};
            // No row in the table of pests, nothing on paper.
            CHECK(rows_of(blocks).size() == static_cast<std::size_t>(expected));
            if (blocks.empty()) continue;
            const std::string sources = sources_of(blocks);
            const auto named = [&](const auto& cited) {
                CHECK(sources.find(std::string(cited->source)) != std::string::npos);
            };
            if (liquid) named(pest.liquid);
            if (paste) named(pest.paste);
            if (pest.per_home) named(pest.per_home);
            if (pest.per_kitchen) named(pest.per_kitchen);
            if (pest.per_bathroom) named(pest.per_bathroom);
            if (pest.spacing) named(pest.spacing);
        }
    }
}

TEST_CASE("each flat has a line of its own", "[placement]") {
    const std::string head =
        "title: { en: Block, es: Bloque }\nprepared: 2027-03-02\nlanguages: [en, es]\n"
        "premises: flats\n"
        "help: { region: US, contact: { name: Keeper, phone: 555 } }\nmixes:\n  m: { title: Mix, "
        "against: ants, form: liquid, basis: percent w/w, ingredients: { boric acid: 1, water: "
        "rest } }\ncontainers:\n  cup: { holds: 60 mL, fill: 45 mL }\nstations:\n";
    const auto flats = sample(
        head +
        "  - { id: A1, unit: { en: Flat 1, es: Piso 1 }, place: Sink, mix: m, container: cup, "
        "count: 2 }\n"
        "  - { id: B1, unit: { en: Flat 2, es: Piso 2 }, place: Sink, mix: m, container: cup }\n"
        "  - { id: S1, place: Stairs, mix: m, container: cup }\n");
    const Pest& ants = *reference::pest_named("ants");
    const auto rows =
        rows_of(document::bait_amounts(flats.job, flats.plan, ants, tests::words_in("en", "US")));
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].starts_with("Flat 1 | 90 mL of liquid in 2 containers | 200 mL to 800 mL"));
    CHECK(rows[1].starts_with("Flat 2 | 45 mL of liquid in 1 container | 200 mL to 800 mL"));
    CHECK(rows[2] == "Outside these homes | 45 mL of liquid in 1 container | counts for no home");
    CHECK(rows_of(document::bait_amounts(flats.job, flats.plan, ants, tests::words_in("es")))[1]
              .starts_with("Piso 2 | 45 ml de líquido"));

    // Without units the whole building is one house, and the paper says so.
    const auto one =
        sample(head + "  - { id: A1, place: 'Flat 1, sink', mix: m, container: cup }\n");
    const std::string paper = document::plain_text(
        document::placement_plan(one.job, one.plan, {}, tests::words_in("en", "US")));
    CHECK(paper.find("the building counts as one house") != std::string::npos);
}

TEST_CASE("the table can be said in every language", "[placement]") {
    for (const std::string& language : tests::languages()) {
        const text::Catalog words = tests::words_in(language);
        for (const char* form : {"liquid", "dry", "paste"}) {
            for (const char* pest : {"ants", "cockroaches"}) {
                const auto home = home_against(pest, form);
                INFO(language << " " << pest << " " << form);
                const auto rows = rows_of(document::bait_amounts(
                    home.job, home.plan, *reference::pest_named(pest), words));
                CHECK_FALSE(rows.empty());
                for (const std::string& row : rows) CHECK(row.find('{') == std::string::npos);
            }
        }
    }
}
