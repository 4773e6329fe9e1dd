#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/plain_text.hpp"
#include "scenario.hpp"

using namespace gallipot;

namespace {

// A kitchen with nothing metric in it.
constexpr std::string_view kitchen = R"(title: Juniper Street kitchen
prepared: 2027-04-10
help: { region: US }
measures:
  - { scale: 5 lb, marks: 0.1 oz }
  - { jug: 2 cup, marks: 1/4 cup }
supplies:
  boric acid: { pack: 1 lb, price: 6.50 }
  octaborate: { substance: disodium octaborate, pack: 5 lb }
mixes:
  syrup:
    title: Sweet liquid bait
    against: ants
    form: liquid
    ingredients: { sugar: 4 oz, boric acid: 0.2 oz, water: 1 3/4 cups }
    batch: as written
    lasts: 30 d
  timber:
    title: Timber spray
    against: wood borers
    form: spray
    basis: percent w/v
    ingredients: { octaborate: { as: boric acid, percent: 13 }, water: rest }
containers:
  cup: { holds: 2 fl oz, fill: 1 tbsp, body: { diameter: 2 in, height: 1.75 in }, openings: 4 side holes of 5 mm }
stations:
  - { id: K1, place: "Kitchen, behind the range", mix: syrup, container: cup, count: 4 }
  - { id: W1, place: Board rack, mix: timber, area: 40 sq ft, coats: 2 }
)";

tests::Scenario planned(const std::string& text) {
    const auto source = std::make_shared<const diag::Source>(diag::Source{"kitchen.yaml", text});
    diag::Diagnostics out;
    const auto job = job::read_job(source, out);
    INFO(diag::print(out));
    REQUIRE(job);
    tests::Scenario it{*job, {}, {}};
    it.who = safety::who_to_call(it.job.help, out);
    it.plan = plan::make_plan(
        it.job, [](const job::Station&) { return std::string(); }, out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return it;
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

/// On one line, with plain spaces for all others.
std::string flat(std::string text) {
    for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at))
        text.replace(at, 2, " ");
    std::string out;
    for (char c : text) {
        if (c == '~') c = ' ';
        const bool space = c == ' ' || c == '\n';
        if (c == '*' || (space && out.ends_with(' '))) continue;
        out += space ? ' ' : c;
    }
    return out;
}

void says(const std::string& text, const std::string& part) {
    INFO(text);
    CHECK(text.find(part) != std::string::npos);
}

std::string card(const tests::Scenario& it, std::size_t mix, const text::Catalog& words) {
    return flat(
        plain_text(document::mixing_card(it.job, it.plan, it.plan.mixes.at(mix), it.who, words)));
}

}  // namespace

TEST_CASE("a kitchen in ounces, cups, spoons and square feet reads them back", "[us]") {
    const auto it = planned(std::string(kitchen));
    auto words = tests::words_in("en", "US");
    words.show_in(it.job.units);
    const std::string syrup = card(it, 0, words);
    // 4 oz x 28.349523125 g = 113.398 g; 0.2 oz = 5.67 g; 1.75 cups x 236.5882365 mL = 414.03 mL;
    // 1 tbsp = 14.79 mL; 40 sq ft x 0.09290304 m2 = 3.716 m2.
    says(syrup, "4 oz (113 g) on the scale");
    says(syrup, "0.2 oz (5.7 g) on the scale");
    says(syrup, "1¾ cups (414 mL) in the jug");
    says(syrup, "4 containers of 1 tbsp (15 mL)");
    says(card(it, 1, words), "40 sq ft (3.7 m²)");
    says(flat(plain_text(document::household_sheet(it.job, it.plan, it.who, words))),
         "40 sq ft (3.7 m²)");
    const std::string placement =
        flat(plain_text(document::placement_plan(it.job, it.plan, it.who, words)));
    says(placement, "4 containers of 1 tbsp (15 mL)");
    says(placement, "40 sq ft (3.7 m²)");

    const auto labels = document::LabelMaker(it.job, it.plan, it.who, {&words})();
    std::string all;
    for (const auto& label : labels.labels)
        for (const auto& part : label.body->parts)
            for (const auto& line : part.wordings.front().lines) all += text::plain(line) + " ";
    says(flat(all), "1 tbsp (15 mL)");
}

TEST_CASE("units: US tells totals in US units with metric beside", "[us]") {
    const auto it = planned("units: US\n" + std::string(kitchen));
    auto words = tests::words_in("en", "US");
    words.show_in(it.job.units);
    // All by weight: 113.398 + 5.670 g and 414.03 mL of water at 0.998 g/mL make 532 g = 1.17 lb.
    says(card(it, 0, words), "1.17 lb (532 g)");
    const auto metric = planned("units: metric\n" + std::string(kitchen));
    words.show_in(metric.job.units);
    const std::string syrup = card(metric, 0, words);
    says(syrup, "4 oz (113 g) on the scale");  // what was written keeps its unit
    CHECK(syrup.find(" lb") == std::string::npos);
}

TEST_CASE("a batch is told as it was written, and what comes out in the job's units", "[us]") {
    // Fine enough for so little.
    const std::string text =
        changed(changed(std::string(kitchen), "batch: as written", "batch: 5 tbsp"),
                "marks: 0.1 oz", "marks: 0.001 oz");
    for (const char* key : {"batch", "makes"}) {
        INFO(key);
        const auto it = planned(changed(text, "batch:", std::string(key) + ":"));
        const std::string syrup = card(it, 0, tests::words_in("en", "US"));
        says(syrup, "5 tbsp (74 mL)");
        CHECK(syrup.find("5.0") == std::string::npos);
    }
}

TEST_CASE("a job with US spoons elsewhere says whose they are", "[us]") {
    // A scale in ounces and American cups in Britain.
    const auto it = planned(changed(changed(std::string(kitchen), "region: US", "region: GB"),
                                    "measures:", "spoons: US\nmeasures:\n  - 1 cup"));
    auto words = tests::words_in("en", "GB");
    words.show_in(it.job.units);
    const std::string syrup = card(it, 0, words);
    says(syrup, "4 oz (113 g) on the scale");
    says(syrup, "4 containers of 1 tbsp (US, 15 mL)");
    says(syrup, "water 1¾ cups (US, 414 mL)");  // what the recipe says
    CHECK(syrup.find("°F") == std::string::npos);
    says(card(it, 1, words), "40 sq ft (3.7 m²)");  // as written
}

TEST_CASE("temperatures in the United States have Celsius beside", "[us]") {
    const auto it = planned(std::string(kitchen));
    auto words = tests::words_in("en", "US");
    words.show_in(it.job.units);
    const std::string timber = card(it, 1, words);
    // 35 C x 9/5 + 32.
    says(timber, "95 °F (35 °C)");
}

TEST_CASE("a metric job says nothing of other units", "[us]") {
    const auto hall = tests::hall();
    const auto words = tests::words_in("en");
    for (const auto& mix : hall.plan.mixes) {
        const std::string text =
            flat(plain_text(document::mixing_card(hall.job, hall.plan, mix, hall.who, words)));
        for (const std::string unit : {" oz", " lb", " ft", " gal", "°F"})
            CHECK(text.find(unit) == std::string::npos);
    }
}
