#include "papers/document/make_labels.hpp"

#include <functional>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "scenario.hpp"

using namespace gallipot;
using document::LabelBody;

namespace {

/// Three stations whose cups have all in common but their place.
tests::Scenario three_alike() {
    const std::string text = R"(title: Hall
prepared: 2027-03-02
help: { region: AU }
measures: [{ scale: 2 kg, marks: 0.1 g }]
supplies:
  strong: { strength: { of: boric acid, percent: 50 }, density: 1.2 g/mL }
mixes:
  m: { title: Sweet bait, against: ants, form: liquid, basis: percent w/w,
       ingredients: { strong: 2, sugar: 20, water: rest }, lasts: 30 d }
containers: { cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm } }
stations:
  - { id: K1, place: Kitchen, mix: m, container: cup, count: 2, placed: 2027-03-02 19:30 }
  - { id: K2, place: Store, mix: m, container: cup, placed: 2027-03-02 19:30 }
)";
    const auto source = std::make_shared<const diag::Source>(diag::Source{"job.yaml", text});
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

std::vector<document::Label> labels_of(const tests::Scenario& it, bool two_languages = true) {
    const auto english = tests::words_in("en"), german = tests::words_in("de");
    std::vector<const text::Catalog*> words{&english};
    if (two_languages) words.push_back(&german);
    return document::LabelMaker(it.job, it.plan, it.who, words)().labels;
}

std::string text_of(const LabelBody& body, document::Part part) {
    std::string all;
    for (const auto& line : body.find(part)->wordings.front().lines)
        all += text::plain(line) + "\n";
    return all;
}

}  // namespace

TEST_CASE("labels that say the same share one body") {
    const auto labels = labels_of(three_alike());
    REQUIRE(labels.size() == 6);  // three cups, bottle, leftovers, jar of the concentrate
    CHECK(labels[0].body == labels[1].body);
    CHECK(labels[0].body == labels[2].body);
    CHECK(labels[3].body != labels[4].body);
    CHECK(labels[0].id != labels[1].id);
    CHECK(labels[1].code == labels[0].code);
    CHECK(labels[2].code == "link of K2");
}

TEST_CASE("whatever a station's label says otherwise, it says on that label alone") {
    // Each a difference of one station in what its cups are, placed, filled with or warned of.
    const auto with_contents = [](auto change) {
        return [change](plan::Container& cup) {
            auto contents = *cup.contents;
            change(contents);
            cup.contents = std::make_shared<const plan::Contents>(contents);
        };
    };
    const auto with_hazard = [](auto change) {
        return [change](plan::Container& cup) {
            auto hazard = *cup.hazard;
            change(hazard);
            cup.hazard = std::make_shared<const safety::Hazard>(hazard);
        };
    };
    const std::vector<std::pair<const char*, std::function<void(plan::Container&)>>> differences = {
        {"placed", [](auto& cup) { *cup.placed += std::chrono::days(1); }},
        {"replace_by",
         [](auto& cup) { cup.replace_by = plan::Date(std::chrono::year{2027} / 5 / 1); }},
        {"made", [](auto& cup) { cup.made = plan::Date(std::chrono::year{2027} / 3 / 1); }},
        {"no link", [](auto& cup) { cup.has_link = false; }},
        {"capacity", [](auto& cup) { cup.capacity = units::mL(61); }},
        {"fill", with_contents([](auto& contents) { contents.fill = units::mL(40); })},
        {"grams",
         with_contents([](auto& contents) { contents.ingredients[0].second = units::g(9); })},
        {"signal word",
         with_hazard([](auto& hazard) { hazard.signal_word = safety::SignalWord::warning; })},
        {"statements", with_hazard([](auto& hazard) { hazard.hazard_codes.emplace_back("H319"); })},
        {"pictograms", with_hazard([](auto& hazard) {
             hazard.pictograms.push_back(safety::Pictogram::exclamation);
         })},
        {"unknown", with_hazard([](auto& hazard) { hazard.unknown.emplace_back("malt"); })},
        {"notes", with_hazard([](auto& hazard) { hazard.notes.emplace_back("basis.when_dried"); })},
    };
    for (const auto& [what, change] : differences) {
        INFO(what);
        auto it = three_alike();
        change(it.plan.containers[2]);
        const auto labels = labels_of(it);
        CHECK(labels[0].body == labels[1].body);
        CHECK(labels[0].body != labels[2].body);
        CHECK_FALSE(*labels[0].body == *labels[2].body);
    }
}

TEST_CASE("where animals come by every wording says whom to call for one, elsewhere the first") {
    auto it = three_alike();
    it.job.help.contact = job::Contact{{job::LocalText({{"en", "Keeper"}}, "en"), {}}, {"555", {}}};
    it.job.stations[1].near = {{job::Near::pets, {}}};
    // The line for animals of Australia, with its source in the table of numbers.
    const std::string english = "If a pet ate some: call a vet or 1300\u00A0869\u00A0738.";
    const std::string german =
        "Hat ein Tier davon gefressen: Tierarztpraxis oder 1300\u00A0869\u00A0738 anrufen.";
    const auto labels = labels_of(it);
    for (const auto& label : labels) {
        INFO(label.name);
        const bool near_pets = label.name == "K2";
        const auto* aid = label.body->find(document::Part::first_aid);
        const auto* contact = label.body->find(document::Part::contact);
        REQUIRE(aid->required);
        for (const auto& wording : aid->wordings) {
            std::string all;
            for (const auto& line : wording.lines) all += text::plain(line) + "\n";
            for (const auto& sentence : {english, german})
                CHECK((all.find(sentence) != std::string::npos) == near_pets);
        }
        CHECK_FALSE(contact->required);
        const auto first = text_of(*label.body, document::Part::contact);
        CHECK((first.find(english) != std::string::npos) == !near_pets);
        CHECK(text::plain(contact->wordings.back().lines.front()) == "Keeper 555");
    }
    it.who.vet_phone.clear();
    const auto nobody = labels_of(it, false);
    CHECK(text_of(*nobody[2].body, document::Part::first_aid).find("call a vet.") !=
          std::string::npos);
}

TEST_CASE("every label has the number to call, once, whatever its languages") {
    for (const bool two : {false, true})
        for (const auto& label : labels_of(three_alike(), two)) {
            INFO(label.name);
            CHECK(text_of(*label.body, document::Part::number) == "13\u00A011\u00A026\n");
            CHECK(label.body->find(document::Part::number)->required);
        }
}

TEST_CASE("a cup's label says where it belongs, in its languages, and a vessel's nothing") {
    auto it = three_alike();
    it.job.stations[1].place.value = job::LocalText({{"en", "Store"}, {"de", "Lager"}}, "en");
    const auto english = tests::words_in("en"), german = tests::words_in("de");
    const document::LabelMaker maker(it.job, it.plan, it.who, {&english, &german});
    using document::Speech;
    const auto place = [&](std::size_t container, Speech speech) {
        const document::LabelChoice choice{container, speech};
        std::vector<std::string> lines;
        const auto labels = maker(std::span(&choice, 1));
        for (const auto& line : labels.labels.front().place) lines.push_back(text::plain(line));
        return lines;
    };
    using Lines = std::vector<std::string>;
    CHECK(place(2, Speech::both) == Lines{"Place: Store", "Platz: Lager"});
    CHECK(place(2, Speech::first) == Lines{"Place: Store"});
    CHECK(place(2, Speech::second) == Lines{"Platz: Lager"});
    CHECK(place(3, Speech::both).empty());
}

TEST_CASE("a label in each of two languages says all, in its own and under a name of its own") {
    const auto it = three_alike();
    const auto english = tests::words_in("en"), german = tests::words_in("de");
    const document::LabelMaker both(it.job, it.plan, it.who, {&english, &german});
    const document::LabelMaker alone(it.job, it.plan, it.who, {&german});
    for (std::size_t i = 0; i < both.size(); ++i) {
        const document::LabelChoice second{i, document::Speech::second}, whole{i};
        const auto made = both(std::span(&second, 1)).labels.front();
        const auto german_one = alone(std::span(&whole, 1)).labels.front();
        INFO(made.name);
        CHECK(*made.body == *german_one.body);
        CHECK(made.id == german_one.id);
        CHECK(made.name == german_one.name + " (" + german.tag() + ")");
        CHECK(made.code == german_one.code);
    }
}

TEST_CASE("bodies are equal when all they say is") {
    const auto labels = labels_of(three_alike(), false);
    const LabelBody whole = *labels[0].body;
    const auto differs = [&](auto change) {
        LabelBody other = whole;
        change(other);
        return !(other == whole);
    };
    CHECK(whole == LabelBody(whole));
    CHECK(hash(whole) == hash(LabelBody(whole)));
    CHECK(differs(
        [](auto& body) { body.parts.back().wordings.back().lines.back().back().text += "x"; }));
    CHECK(differs([](auto& body) {
        body.parts.front().wordings.front().lines.front().front().bold ^= true;
    }));
    CHECK(differs([](auto& body) { body.parts.front().required ^= true; }));
    CHECK(differs([](auto& body) { body.parts.pop_back(); }));
    CHECK(differs([](auto& body) { body.pictograms.clear(); }));
    CHECK(differs([](auto& body) { body.capacity = units::mL(1); }));
    CHECK(differs([](auto& body) { body.diameter = units::mm(1); }));
    CHECK(differs([](auto& body) { body.panel = units::cm2(1); }));
    CHECK(differs([](auto& body) { body.rules = safety::RuleSet::us_household; }));
    CHECK(differs([](auto& body) { body.language = "tlh"; }));
    CHECK(differs([](auto& body) { body.height = units::mm(1); }));
    CHECK(differs([](auto& body) { body.lid = units::mm(1); }));
}

TEST_CASE("the label of a decanted concentrate warns of what is in it") {
    const auto it = three_alike();
    const auto labels = labels_of(it, false);
    const auto& jar = labels.back();
    CHECK(jar.name == "jar of strong");
    CHECK(text_of(*jar.body, document::Part::signal_word) == "DANGER\n");
    CHECK(text_of(*jar.body, document::Part::ingredients) ==
          "boric acid 50\u00A0% and water 50\u00A0%\n");
    CHECK(jar.body->pictograms == std::vector{safety::Pictogram::health_hazard});
    for (const auto& part : jar.body->parts)
        for (const auto& wording : part.wordings)
            for (const auto& line : wording.lines)
                CHECK(text::plain(line).find("not known") == std::string::npos);
}
