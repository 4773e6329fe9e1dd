#include "papers/document/pest_advice.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/plain_text.hpp"
#include "papers/document/takedown_sheet.hpp"
#include "papers/document/tasting_sheet.hpp"
#include "papers/document/visit_sheets.hpp"
#include "scenario.hpp"

using namespace gallipot;
using reference::Pest;
using reference::Topic;

namespace {

/// Texts of the catalogs that a row of the table of pests stands behind, and those that go with a
/// figure of a row.
std::map<std::string, const Pest*> keys_of_table() {
    std::map<std::string, const Pest*> keys;
    for (const Pest& pest : reference::pests())
        for (const auto& advice : pest.advice) keys.emplace(advice.key, &pest);
    for (const Pest& pest : reference::pests())
        for (const auto& usual : pest.usual)
            if (!usual.found_for.empty()) keys.emplace("advice.strength.boric_acid", &pest);
    return keys;
}

struct Papers {
    std::string text;  ///< of all papers that are printed before the first visit
    bool errors = false;
};

Papers papers_against(const std::string& pest, const std::string& form) {
    const bool spray = form == "spray";
    const std::string recipe = spray           ? "octaborate: 11, water: rest"
                               : form == "dry" ? "boric acid: 30, flour: 70"
                                               : "boric acid: 1, sugar: 25, water: rest";
    const std::string text =
        "title: Test hall\nprepared: 2027-03-02\naccept: [no-published-support, advised-against, "
        "report-first]\nhelp: { region: AU, contact: { name: Keeper, phone: 555 } }\nmixes:\n  m:\n"
        "    title: Mix\n    against: " +
        pest + "\n    form: " + form + "\n    basis: percent w/w\n    ingredients: { " + recipe +
        " }\nsupplies:\n  octaborate: { substance: disodium octaborate }\n"
        "containers:\n  cup: { holds: 300 mL, fill: 200 mL }\nstations:\n"
        "  - { id: A1, place: Hall, mix: m, " +
        (spray ? "area: 2 m2, coats: 2" : "container: cup") +
        ", placed: 2027-03-02 19:30 }\n  - { id: C1, place: Yard, control: true }\n";
    diag::Diagnostics out;
    const auto job =
        job::read_job(std::make_shared<const diag::Source>(diag::Source{"job.yaml", text}), out);
    INFO(diag::print(out));
    REQUIRE(job);
    const plan::Plan plan = plan::make_plan(*job, {}, out);
    const text::Catalog words = tests::words_in("en");
    const safety::WhoToCall who;
    using namespace document;
    Papers papers;
    papers.text = plain_text(household_sheet(*job, plan, who, words));
    papers.text += plain_text(placement_plan(*job, plan, who, words));
    papers.text += plain_text(visit_sheets(*job, plan, words));
    papers.text += plain_text(takedown_sheet(*job, plan, who, words));
    if (sets_out_bait(*job)) papers.text += plain_text(tasting_sheet(*job, plan, words));
    for (const plan::Mix& mix : plan.mixes)
        papers.text += plain_text(mixing_card(*job, plan, mix, who, words));
    // Bold is marked with asterisks, which no text of ours has.
    std::erase(papers.text, '*');
    std::replace(papers.text.begin(), papers.text.end(), '\n', ' ');
    papers.errors = out.has_errors();
    return papers;
}

std::string form_for(const Pest& pest) {
    return pest.lives_in_wood ? "spray" : pest.usual.empty() ? "dry" : "liquid";
}

bool printed(const Papers& papers, const text::Catalog& words, std::string_view key) {
    return papers.text.find(words(key)) != std::string::npos;
}

}  // namespace

TEST_CASE("every sentence of advice stands in a row of the table, in every language") {
    const auto rows = keys_of_table();
    for (const std::string language : {"en", "es", "de", "fil", "uk"}) {
        const text::Catalog words = tests::words_in(language);
        std::set<std::string> texts;
        for (const std::string& key : words.keys())
            if (key.starts_with("advice.")) texts.insert(key);
        INFO(language);
        for (const std::string& key : texts) {
            INFO(key);
            CHECK(rows.count(key) == 1);
        }
        for (const auto& [key, pest] : rows) {
            INFO(key << " of " << pest->name);
            CHECK(texts.count(key) == 1);
        }
    }
}

TEST_CASE("every other sentence of advice has its row, with source and standing") {
    const text::Catalog words = tests::words_in("en");
    // Headings, and words of tables.
    const std::set<std::string> no_advice{"heading",   "most",       "bait",         "mix",
                                          "none_here", "equal_case", "nothing_case", "do",
                                          "do_not",    "by",         "now",          "pest"};
    std::set<std::string> texts;
    for (const std::string& key : words.keys()) {
        const auto last = key.rfind('.');
        if (last == std::string::npos || no_advice.count(key.substr(last + 1)) != 0) continue;
        for (const std::string_view section :
             {"placement.before", "placement.check", "tasting.steps", "tasting.follows",
              "takeover.visit", "takeover.stop", "visits.how", "sheet.please", "takedown.before",
              "takedown.dispose", "action"})
            if (key.substr(0, last) == section && key != "visits.how.count") texts.insert(key);
    }
    // Of the steps on the card, the one that says where rinse water goes.
    texts.insert("card.mix.rinse");
    std::set<std::string> rows;
    for (const auto& advice : reference::general_advice()) {
        INFO(advice.key);
        CHECK_FALSE(advice.source.empty());
        CHECK(rows.insert(std::string(advice.key)).second);
    }
    CHECK(rows == texts);
}

TEST_CASE("the papers print the advice of their pest and of no other") {
    const text::Catalog words = tests::words_in("en");
    const auto rows = keys_of_table();
    for (const Pest& pest : reference::pests()) {
        if (pest.support.value == reference::Support::none ||
            pest.support.value == reference::Support::conflicting)
            continue;
        INFO(pest.name);
        const Papers papers = papers_against(std::string(pest.name), form_for(pest));
        std::set<std::string_view> own;
        for (const auto& advice : pest.advice) {
            INFO(advice.key);
            own.insert(advice.key);
            // That of the vessels' labels is looked for there: see make_labels_test.cpp.
            if (advice.topic == Topic::label) continue;
            CHECK(printed(papers, words, advice.key));
        }
        for (const auto& [key, other] : rows) {
            INFO(key);
            if (own.count(key) == 0) CHECK_FALSE(printed(papers, words, key));
        }
    }
}

TEST_CASE("every paper about termites says that a colony goes on, and what not to do") {
    for (const std::string language : {"en", "es", "de", "fil", "uk"}) {
        const text::Catalog words = tests::words_in(language);
        diag::Diagnostics out;
        const auto job = job::read_job(
            std::make_shared<const diag::Source>(diag::Source{
                "job.yaml",
                "title: Shed\nprepared: 2027-03-02\nhelp: { region: AU, contact: { name: Keeper, "
                "phone: 555 } }\nmixes:\n  m: { title: Mix, against: white ants, form: spray, "
                "basis: percent w/w, ingredients: { disodium octaborate: 11, water: rest } }\n"
                "stations:\n  - { id: A1, place: Sill, mix: m, area: 2 m2 }\n"}),
            out);
        INFO(diag::print(out));
        REQUIRE(job);
        const plan::Plan plan = plan::make_plan(*job, {}, out);
        INFO(diag::print(out));
        REQUIRE_FALSE(out.has_errors());
        const safety::WhoToCall who;
        using namespace document;
        for (const Sheet& sheet :
             {household_sheet(*job, plan, who, words), placement_plan(*job, plan, who, words),
              takedown_sheet(*job, plan, who, words),
              mixing_card(*job, plan, plan.mixes.front(), who, words)}) {
            std::string text = plain_text(sheet);
            std::erase(text, '*');
            std::replace(text.begin(), text.end(), '\n', ' ');
            INFO(sheet.bookmark << "\n" << text);
            CHECK(text.find(words("advice.termites.colony")) != std::string::npos);
            CHECK(text.find(words("advice.termites.leave")) != std::string::npos);
        }
        // Nobody licensed has looked yet, as far as this job says.
        CHECK(plain_text(mixing_card(*job, plan, plan.mixes.front(), who, words))
                  .find(words("card.not_inspected", {{"places", std::string("A1")}})) !=
              std::string::npos);
        const Labels labels = LabelMaker(*job, plan, who, {&words})();
        REQUIRE_FALSE(labels.labels.empty());
        for (const Label& label : labels.labels) {
            std::string all;
            for (const LabelPart& part : label.body->parts)
                for (const text::Runs& line : part.wordings.back().lines)
                    all += text::plain(line) + "\n";
            // A jar that an ingredient was filled over into is against nothing.
            if (all.find("Mix") == std::string::npos) continue;
            INFO(label.name << "\n" << all);
            CHECK(all.find(words("advice.termites.label")) != std::string::npos);
        }
    }
}
