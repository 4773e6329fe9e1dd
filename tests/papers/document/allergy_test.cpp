#include <algorithm>
#include <memory>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "golden.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/plain_text.hpp"
#include "scenario.hpp"

// A bait with peanut says so wherever somebody may meet it.

using namespace gallipot;

namespace {

/// The paste of the starters, planned; or with corn syrup for its peanut butter.
tests::Scenario paste(bool with_peanut) {
    std::string text =
        tests::slurp(std::string(GALLIPOT_SOURCE_DIR) + "/templates/jobs/paste.yaml");
    if (!with_peanut) {
        const std::string peanut = "peanut butter: 1 tbsp";
        text.replace(text.find(peanut), peanut.size(), "corn syrup: 1 tbsp");
    }
    diag::Diagnostics out;
    const auto job =
        job::read_job(std::make_shared<const diag::Source>(diag::Source{"paste.yaml", text}), out);
    REQUIRE(job);
    tests::Scenario it{*job, {}, {}};
    it.who = safety::who_to_call(it.job.help, out);
    it.plan = plan::make_plan(
        it.job, [](const job::Station& station) { return "link of " + *station.id; }, out);
    REQUIRE_FALSE(out.has_errors());
    return it;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string words_of(const document::Wording& wording) {
    std::string all;
    for (const auto& line : wording.lines) all += text::plain(line) + "\n";
    return all;
}

struct Language {
    std::string tag, region, on_label, on_card, on_sheet;
};
const std::vector<Language> languages = {
    {"en", "AU", "Contains PEANUT", "Contains peanut.", "A bait here contains peanut."},
    {"de", "DE", "Enthält ERDNUSS", "Enthält Erdnuss.", "Ein Köder hier enthält Erdnuss."},
    {"es", "ES", "Contiene CACAHUETE", "Contiene cacahuete.", "aquí contiene cacahuete."},
    {"es", "US", "Contiene MANÍ", "Contiene maní.", "aquí contiene maní."},
    {"fil", "PH", "May MANI", "May mani.", "May mani ang isang pain dito."},
    {"uk", "UA", "Містить АРАХІС", "Містить арахіс.", "тут містить арахіс."},
};

}  // namespace

TEST_CASE("peanut stands on card, label and household sheet in every language", "[allergy]") {
    const auto peanut = paste(true), plain = paste(false);
    for (const Language& it : languages) {
        INFO(it.tag << " " << it.region);
        const auto words = tests::words_in(it.tag, it.region);
        const auto sheet = [&](const tests::Scenario& of) {
            return plain_text(document::household_sheet(of.job, of.plan, of.who, words));
        };
        CHECK(has(sheet(peanut), it.on_sheet));
        CHECK_FALSE(has(sheet(plain), it.on_sheet));
        const auto card = [&](const tests::Scenario& of) {
            return plain_text(
                document::mixing_card(of.job, of.plan, of.plan.mixes.front(), of.who, words));
        };
        CHECK(has(card(peanut), it.on_card));
        CHECK_FALSE(has(card(plain), it.on_card));
        // Cups, mixing jar and leftovers, in every wording that a small label may fall back to; not
        // the jar that boric acid is decanted into.
        const auto told = [&](const tests::Scenario& of) {
            int labels = 0;
            for (const auto& label :
                 document::LabelMaker(of.job, of.plan, of.who, {&words})().labels)
                labels += std::ranges::all_of(
                    label.body->find(document::Part::contents)->wordings,
                    [&](const auto& wording) { return has(words_of(wording), it.on_label); });
            return labels;
        };
        CHECK(told(peanut) == 12 + 2);
        CHECK(told(plain) == 0);
    }
}

TEST_CASE("peanut under a name or a supply of the user's own", "[allergy]") {
    auto hall = tests::hall();
    plan::Mix mix = hall.plan.mixes.front();
    CHECK_FALSE(document::holds_peanut(hall.job, mix));
    mix.ingredients.front().name = "Crunchy Peanut spread";
    CHECK(document::holds_peanut(hall.job, mix));
    mix.ingredients.front().name = "spread";
    CHECK_FALSE(document::holds_peanut(hall.job, mix));
    job::Supply spread;
    spread.name = "spread";
    spread.substance = job::At<std::string>{"peanut butter", {}};
    hall.job.supplies["spread"] = spread;
    CHECK(document::holds_peanut(hall.job, mix));
}
