#include <algorithm>
#include <map>

#include "catch_all.hpp"

#include "languages.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/label_fit.hpp"
#include "papers/layout/label_jobs.hpp"
#include "papers/layout/overflow.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using Codes = std::vector<std::string>;

namespace {

/// A cup of bait, its bottle, its leftovers and a jar of borax.
document::Labels labels_for(const std::string& region, const std::string& languages,
                            const std::string& percent, const std::string& more = "") {
    std::string error;
    const auto labels =
        labels_of("title: Hall\nprepared: 2027-03-02\nlanguages: [" + languages +
                      "]\nhelp:\n  region: " + region +
                      "\n  contact: { name: Hall caretaker, phone: 5550 0142 }\n"
                      "log:\n  address: http://10.0.0.2\n"
                      "measures:\n  - { scale: 9 kg, marks: 0.1 g }\n"
                      "mixes:\n  bait:\n    title: Bait\n    against: cockroaches\n    form: dry\n"
                      "    basis: percent w/w\n    ingredients: { borax: " +
                      percent +
                      ", sugar: rest }\n    lasts: 30 d\n    vessel: 300 mL\n"
                      "containers:\n  cup: { holds: 60 mL, fill: 45 mL, openings: open top }\n"
                      "stations:\n  - { id: K1, place: Bins, mix: bait, container: cup, "
                      "placed: 2027-03-02 19:30" +
                      more + " }\n",
                  &error);
    INFO(error);
    REQUIRE(labels);
    return *labels;
}

bool holds(const Codes& codes, const std::string& code) {
    return std::find(codes.begin(), codes.end(), code) != codes.end();
}

std::string printed(const layout::LabelSheets& sheets) {
    std::string all;
    for (const auto& page : sheets.paper.pages)
        for (const auto& item : page.items)
            if (const auto* text = std::get_if<layout::Text>(&item.shape)) all += text->text + '\n';
    return all;
}

}  // namespace

TEST_CASE("no label loses a statement that must stay, and it says which it has no room for") {
    int full = 0, short_of = 0;
    for (const char* languages : {"en", "en, es", "de, uk"}) {
        const auto labels = labels_for("AU", languages, "33");
        for (const auto& stock : shipped_stocks()) {
            const auto reports = layout::fit_labels(labels, stock, installed_faces());
            for (std::size_t i = 0; i < reports.size(); ++i) {
                if (reports[i] == nullptr) continue;
                const auto& report = *reports[i];
                INFO(labels.labels[i].name << " on " << stock.stock.name << " in " << languages);
                // GHS08 and GHS07 are there, so their statements are; P308+P313 goes with H360FD.
                for (const char* code : {"H360FD", "H319", "P308+P313"})
                    CHECK(holds(report.statements, code));
                if (i > 0)
                    for (const char* code : {"P405", "P501"}) CHECK(holds(report.statements, code));
                Codes all = report.statements;
                all.insert(all.end(), report.statements_left_out.begin(),
                           report.statements_left_out.end());
                std::sort(all.begin(), all.end());
                Codes wanted{"H319",           "H360FD",    "P264", "P280-eyes",
                             "P305+P351+P338", "P308+P313", "P501"};
                if (i > 0) wanted.insert(wanted.end(), {"P201", "P405"});
                std::sort(wanted.begin(), wanted.end());
                CHECK(all == wanted);
                (report.statements_left_out.empty() ? full : short_of) += 1;
                // Statements go only where type would get too small with them.
                if (!report.statements_left_out.empty()) CHECK(report.run_on);
            }
        }
    }
    CHECK(full > 50);
    CHECK(short_of > 50);
}

TEST_CASE("text is run on before type gets small, and statements go one by one") {
    const auto labels = labels_for("AU", "en, es", "33");
    std::map<std::string, std::size_t> kept;
    for (const char* name : {"a4-2x2", "a4-2x3", "a4-2x4", "a4-2x5"}) {
        const auto report =
            layout::fit_labels(labels, shipped_stock(name), installed_faces()).front();
        REQUIRE(report != nullptr);
        kept[name] = report->statements.size();
        INFO(name << ": " << report->type_points << " pt, " << report->statements.size());
        if (report->type_points < layout::readable_points) CHECK(report->run_on);
    }
    CHECK(kept["a4-2x2"] == 7);
    CHECK(kept["a4-2x2"] >= kept["a4-2x3"]);
    CHECK(kept["a4-2x3"] >= kept["a4-2x4"]);
    CHECK(kept["a4-2x4"] >= kept["a4-2x5"]);
    CHECK(kept["a4-2x5"] < 7);
}

TEST_CASE("a label where animals come by says whom to call for one on every stock that holds it") {
    int held = 0, unfit = 0;
    for (const char* languages : {"en", "en, es", "de", "fil, uk"}) {
        auto labels = labels_for("AU", languages, "33", ", near: [pets], locked: true");
        labels.labels.resize(1);
        for (const auto& stock : shipped_stocks()) {
            INFO(stock.stock.name << " in " << languages);
            try {
                const auto sheets = layout::place_labels(labels, stock, installed_faces());
                CHECK(printed(sheets).find("1300\u00A0869\u00A0738") != std::string::npos);
                ++held;
            } catch (const layout::LayoutError&) {
                ++unfit;
            }
        }
    }
    INFO(held << " held, " << unfit << " did not fit");
    CHECK(held > 40);
    CHECK(unfit > 0);
}

// 40 CFR 156.64(a)(1): POISON goes with DANGER and toxicity category I.
TEST_CASE("no label by US rules says POISON beside CAUTION") {
    for (const std::string& language : tests::languages()) {
        const auto us = labels_for("US", language, "33");
        const auto text =
            printed(layout::place_labels(us, shipped_stock("letter-2x2"), installed_faces()));
        INFO(language << ":\n" << text);
        for (const char* word : {"POISON", "VENENO", "GIFT", "LASON", "ОТРУТА"})
            CHECK(text.find(word) == std::string::npos);
    }
}
