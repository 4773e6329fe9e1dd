#include <algorithm>
#include <set>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/plan/rounds.hpp"
#include "domain/safety/who_to_call.hpp"
#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/caretaker_sheet.hpp"
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

namespace {

tests::Scenario example(const std::string& name) {
    const std::string path = std::string(GALLIPOT_SOURCE_DIR) + "/examples/" + name + ".yaml";
    const auto source =
        std::make_shared<const diag::Source>(diag::Source{path, tests::slurp(path)});
    diag::Diagnostics out;
    const auto job = job::read_job(source, out);
    INFO(diag::print(out));
    REQUIRE(job);
    tests::Scenario it{*job, {}, {}};
    it.who = safety::who_to_call(it.job.help, out);
    it.plan = plan::make_plan(
        it.job, [](const job::Station& station) { return "link of " + *station.id; }, out);
    REQUIRE_FALSE(out.has_errors());
    return it;
}

/// Every word of the labels in their longest wording; labels that say the same but for their
/// numbers once.
std::string text_of(const document::Labels& labels) {
    std::string all = "==== " + labels.title + ", labels\n";
    for (const auto& label : labels.labels) {
        all += "\n[" + label.name + "]\n" + text::plain(label.id) + "\n";
        for (const auto& line : label.place) all += text::plain(line) + "\n";
        for (const auto& part : label.body->parts)
            for (const auto& line : part.wordings.front().lines) {
                for (const auto& run : line) all += run.bold ? "*" + run.text + "*" : run.text;
                all += "\n";
            }
    }
    return all;
}

std::string papers_of(const tests::Scenario& it, const text::Catalog& words) {
    using namespace document;
    std::string all = plain_text(household_sheet(it.job, it.plan, it.who, words));
    all += "\n" + plain_text(tasting_sheet(it.job, it.plan, words));
    for (const Sheet& sheet : mixing_cards(it.job, it.plan, it.who, words))
        all += "\n" + plain_text(sheet);
    all += "\n" + plain_text(placement_plan(it.job, it.plan, it.who, words));
    all += "\n" + plain_text(visit_sheets(it.job, it.plan, words));
    all += "\n" + plain_text(takedown_sheet(it.job, it.plan, it.who, words));
    const char* link = it.job.log.address ? "HTTP://192.168.1.20:8017/ALL/K" : "";
    all += "\n" + plain_text(caretaker_sheet(it.job, it.plan, link, words));
    all += "\n" + text_of(LabelMaker(it.job, it.plan, it.who, {&words})());
    return all;
}

}  // namespace

TEST_CASE("every paper of the examples in every language", "[examples]") {
    for (const std::string name : {"hall", "flat", "workshop"}) {
        const auto it = example(name);
        for (const std::string& language : tests::languages()) {
            const auto words = tests::words_in(language, *it.job.help.region);
            tests::check_golden("examples/" + name + "-" + language + ".txt", papers_of(it, words));
        }
    }
}

TEST_CASE("the papers name every station, every container and every round", "[examples]") {
    for (const std::string name : {"hall", "flat", "workshop"}) {
        const auto it = example(name);
        const auto words = tests::words_in("en", *it.job.help.region);
        const auto placement = plain_text(document::placement_plan(it.job, it.plan, it.who, words));
        const std::string visits = plain_text(document::visit_sheets(it.job, it.plan, words));
        const auto takedown = plain_text(document::takedown_sheet(it.job, it.plan, it.who, words));
        std::set<std::string> times;
        for (const plan::Round& round : plan::rounds(it.plan))
            times.insert(
                words.weekday(plan::Date{std::chrono::floor<std::chrono::days>(round.time)}) +
                ", " + words.time_of_day(round.time));
        std::size_t due = 0;
        for (const auto& station : it.plan.stations) {
            INFO(station.id);
            CHECK(placement.find("*" + station.id + "*") != std::string::npos);
            if (station.container_ids.empty())
                CHECK(visits.find("*" + station.id + "*") != std::string::npos);
            for (const std::string& id : station.container_ids) {
                CHECK(takedown.find("| *" + id + "*") != std::string::npos);
                CHECK(visits.find("| *" + id + "*") != std::string::npos);
            }
            due += station.visits.size() * std::max<std::size_t>(station.container_ids.size(), 1);
        }
        // Where the first count is written: a row for each station, with the walk's number.
        for (std::size_t n = 0; n < it.plan.walk.size(); ++n) {
            const std::string number = std::to_string(n + 1);
            const std::string id = it.plan.stations[it.plan.walk[n]].id;
            CHECK(placement.find("| [ ] *" + number + "* | *" + id + "* ") != std::string::npos);
            if (it.job.stations[it.plan.walk[n]].at)
                CHECK(placement.find("] " + number + ". " + id + " at ") != std::string::npos);
        }
        CHECK_FALSE(times.empty());
        for (const std::string& time : times) CHECK(visits.find(time) != std::string::npos);
        // One row for each container at each visit; only rows begin with a number in bold.
        std::size_t rows = 0;
        for (auto at = visits.find("\n| *"); at != std::string::npos;
             at = visits.find("\n| *", at + 1))
            ++rows;
        CHECK(rows == due);
    }
}
