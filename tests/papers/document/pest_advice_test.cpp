#include "papers/document/pest_advice.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "languages.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/plain_text.hpp"
#include "papers/document/report_sheets.hpp"
#include "papers/document/takedown_sheet.hpp"
#include "papers/document/tasting_sheet.hpp"
#include "papers/document/verdict_words.hpp"
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
    for (const std::string& language : tests::languages()) {
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
    const std::set<std::string> no_advice{
        "heading", "most",   "bait", "mix", "none_here", "equal_case", "nothing_case",
        "do",      "do_not", "by",   "now", "pest",      "of"};
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

namespace {

/// A sill sprayed against termites, before and after somebody licensed has looked.
struct Treated {
    explicit Treated(bool inspected, const std::string& form = "spray") {
        const bool spray = form == "spray";
        diag::Diagnostics out;
        const std::string text =
            "title: Shed\nprepared: 2027-03-02\naccept: [termite-food-bait, weak-support]\n"
            "help: { region: AU, contact: { name: Keeper, phone: 555 } }\nmixes:\n  m: { title: "
            "Mix, "
            "against: white ants, form: " +
            form +
            ", basis: percent w/w, ingredients: { disodium octaborate: 11, water: rest } }\n" +
            (spray ? "" : "containers:\n  cup: { holds: 60 mL, fill: 40 mL }\n") +
            "stations:\n  - { id: A1, place: Sill, mix: m, " +
            (spray ? "area: 2 m2" : "container: cup") + ", placed: 2027-03-02 10:00" +
            (inspected ? ", inspected: { by: Inspector, on: 2027-02-22 }" : "") + " }\n";
        const auto read = job::read_job(
            std::make_shared<const diag::Source>(diag::Source{"job.yaml", text}), out);
        INFO(diag::print(out));
        REQUIRE(read);
        job = *read;
        plan = plan::make_plan(job, {}, out);
    }

    job::Job job;
    plan::Plan plan;
};

std::string one_line(const document::Sheet& sheet) {
    std::string text = plain_text(sheet);
    std::erase(text, '*');
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

constexpr const char* termite_warnings[] = {"advice.termites.colony", "advice.termites.leave",
                                            "advice.termites.ask"};

}  // namespace

TEST_CASE("every paper about termites says that a colony goes on, what not to do and whom to ask") {
    const safety::WhoToCall who;
    using namespace document;
    for (const bool inspected : {false, true})
        for (const std::string& language : tests::languages()) {
            const text::Catalog words = tests::words_in(language);
            const Treated it(inspected);
            const auto sites = analysis::sites(it.job, it.plan);
            analysis::Histories histories({"A1"});
            const auto report =
                analysis::report(sites, histories, std::chrono::local_days{it.job.prepared.value});
            const auto walks = analysis::rounds(report, it.plan.walk);
            std::vector<Sheet> sheets{
                household_sheet(it.job, it.plan, who, words),
                placement_plan(it.job, it.plan, who, words), visit_sheets(it.job, it.plan, words),
                takedown_sheet(it.job, it.plan, who, words),
                mixing_card(it.job, it.plan, it.plan.mixes.front(), who, words)};
            for (Sheet& sheet :
                 report_sheets({it.job, sites, histories, report, words}, it.plan, walks, who))
                sheets.push_back(std::move(sheet));
            for (std::size_t i = 0; i < 6; ++i) {
                const std::string text = one_line(sheets.at(i));
                INFO(language << ", " << sheets[i].bookmark << "\n" << text);
                for (const char* key : termite_warnings)
                    CHECK(text.find(document::as_shown(words(key))) != std::string::npos);
            }
            // Until somebody licensed has looked, as far as this job says.
            const bool warned = one_line(sheets.at(4))
                                    .find(document::as_shown(words(
                                        "card.not_inspected", {{"places", words.list({"A1"})}}))) !=
                                std::string::npos;
            INFO(language << "\n" << one_line(sheets.at(4)));
            CHECK(warned == !inspected);
        }
}

TEST_CASE("every label about termites says it in short, of a bait that was accepted too") {
    const safety::WhoToCall who;
    for (const std::string form : {"spray", "paste"})
        for (const std::string& language : tests::languages()) {
            const text::Catalog words = tests::words_in(language);
            const Treated it(true, form);
            int found = 0;
            for (const auto& label :
                 document::LabelMaker(it.job, it.plan, who, {&words})().labels) {
                // A jar that an ingredient was decanted into is against nothing.
                if (label.name.starts_with("jar of")) continue;
                std::string all;
                for (const auto& part : label.body->parts)
                    for (const text::StyledText& line : part.wordings.back().lines)
                        all += text::plain(line) + "\n";
                INFO(label.name << "\n" << all);
                CHECK(all.find(words("advice.termites.label")) != std::string::npos);
                ++found;
            }
            CHECK(found == (form == "spray" ? 2 : 3));
            for (const char* key : termite_warnings)
                CHECK(one_line(document::household_sheet(it.job, it.plan, who, words))
                          .find(words(key)) != std::string::npos);
        }
}

TEST_CASE("no verdict on termites says gone, or to take anything up, whatever was counted") {
    const Treated it(true);
    const auto sites = analysis::sites(it.job, it.plan);
    const auto treated = std::chrono::local_days{it.job.prepared.value};
    for (const std::vector<int>& counts :
         {std::vector<int>{}, {0}, {0, 0}, {9, 0, 0, 0}, {9, 4, 0, 0}, {0, 0, 3}, {5, 5, 5, 5}}) {
        analysis::Histories histories({"A1"});
        for (std::size_t i = 0; i < counts.size(); ++i) {
            visit::Visit visit;
            visit.station = "A1";
            visit.time =
                treated + std::chrono::days(200 * static_cast<int>(i)) + std::chrono::hours(12);
            visit.seen = counts[i];
            histories.add(visit);
        }
        const auto report = analysis::report(
            sites, histories,
            treated + std::chrono::days(200 * static_cast<int>(counts.size()) + 1));
        const auto& station = report.stations.front();
        for (const auto& step : station.steps) CHECK(step.action != analysis::Action::take_up);
        for (const std::string& language : tests::languages()) {
            const text::Catalog words = tests::words_in(language);
            const std::string said =
                document::verdict_sentence(station, report.as_of, words) + " " +
                document::verdict_sentence(report.pests[0], report.as_of, words);
            INFO(said);
            for (const char* word : {"gone", "None seen", "None was seen", "Take it up"})
                if (language == "en") CHECK(said.find(word) == std::string::npos);
            if (station.verdict != analysis::Verdict::wood_quiet) continue;
            CHECK(said ==
                  words("verdict.wood_quiet_termites",
                        {{"since", document::near_day(analysis::day_of(*station.trend.none_since),
                                                      report.as_of, words)}}) +
                      " " + words("verdict_all.wood_quiet_termites"));
        }
    }
}
