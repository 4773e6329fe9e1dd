#include "papers/document/household_sheet.hpp"

#include <algorithm>

#include "catch_all.hpp"

#include "domain/plan/rooms.hpp"
#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/plain_text.hpp"
#include "scenario.hpp"

using namespace gallipot;

namespace {

std::string sheet(const tests::Scenario& scenario, const std::string& region = "AU",
                  const std::string& language = "en") {
    return plain_text(document::household_sheet(scenario.job, scenario.plan, scenario.who,
                                                tests::words_in(language, region)));
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the household sheet of the hall", "[sheet]") {
    for (const std::string& language : tests::languages()) {
        tests::check_golden("document/sheet-" + language + ".txt",
                            sheet(tests::hall(), "AU", language));
    }
}

TEST_CASE("advice on drinking is that of the country", "[sheet]") {
    auto hall = tests::hall();
    CHECK(has(sheet(hall), "nothing to drink until you have asked"));
    CHECK_FALSE(has(sheet(hall), "sip"));
    hall.job.help.region.value = "US";
    CHECK(has(sheet(hall, "US"), "Let them sip a glass of water"));
    CHECK(has(sheet(hall, "US"), "15 to 20 minutes"));
    CHECK_FALSE(has(sheet(hall, "US"), "nothing to drink"));
}

TEST_CASE("a number of the user's own is not asked to be checked", "[sheet]") {
    auto hall = tests::hall();
    CHECK(has(sheet(hall), "before you hang this up"));
    hall.who.vouched = true;
    hall.who.source = safety::of_the_job;
    CHECK_FALSE(has(sheet(hall), "before you hang this up"));
}

TEST_CASE("without a poison centre the emergency number stands in", "[sheet]") {
    auto hall = tests::hall();
    hall.who.phone.clear();
    hall.who.name = {};
    CHECK(has(sheet(hall), "Call 000"));
    CHECK_FALSE(has(sheet(hall), "13~11~26"));
}

TEST_CASE("a bait without a date makes no promise of one", "[sheet]") {
    auto hall = tests::hall();
    CHECK(has(sheet(hall), "bait in this building until 31~May") == false);
    CHECK(has(sheet(hall), "bait in this building until 31 May"));
    hall.plan.stations[0].replace_by.reset();
    CHECK(has(sheet(hall), "# There is ant and cockroach bait in this building\n"));
}

TEST_CASE("a house where only wood was sprayed", "[sheet]") {
    auto hall = tests::hall();
    hall.job.stations = {hall.job.stations[4]};
    const auto text = sheet(hall);
    CHECK(has(text, "# Wood in this building was sprayed against wood borers"));
    CHECK_FALSE(has(text, "container with"));
    CHECK(has(text, "Do not sand, wet or wash"));
}

TEST_CASE("a year is given where it is not plain", "[sheet]") {
    auto hall = tests::hall();
    hall.plan.stations[1].replace_by = job::Date(std::chrono::year{2028} / 5 / 31);
    CHECK(has(sheet(hall), "until 31 May 2028"));
}

TEST_CASE("controls hold nothing and are not listed", "[sheet]") {
    CHECK_FALSE(has(sheet(tests::hall()), "C1"));
}

// Labels leave out what they have no room for.
TEST_CASE("the sheet has every published statement in full, once", "[sheet]") {
    auto hall = tests::hall();
    for (auto& mix : hall.plan.mixes) {
        mix.hazard.signal_word = safety::SignalWord::danger;
        mix.hazard.hazard_codes = {"H360FD"};
        mix.hazard.precaution_codes = {"P102", "P201", "P280", "P308+P313", "P405", "P501"};
    }
    const auto text = sheet(hall);
    for (const char* part :
         {"May damage the unborn child. (H360FD)", "Keep out of reach of children. (P102)",
          "Obtain special instructions before use. (P201)", "Wear protective gloves. (P280)",
          "Get medical advice/attention. (P308+P313)", "Store locked up. (P405)", "(P501)"}) {
        INFO(part);
        const auto at = text.find(part);
        REQUIRE(at != std::string::npos);
        CHECK(text.find(part, at + 1) == std::string::npos);
    }
}

TEST_CASE("what the poison centre will ask stands with what it needs, not before what to do",
          "[sheet]") {
    const auto text = sheet(tests::hall());
    const auto asked = text.find("what they weigh");
    REQUIRE(asked != std::string::npos);
    CHECK(text.find("## For the poison centre") < asked);
    CHECK(text.find("Read out the number on the label") < text.find("## Where it is"));
    CHECK(text.find("## Where it is") < text.find("NOT YET ASKED"));
}

TEST_CASE("NOT YET ASKED stands across the sheet where the law forbids it, until somebody asked",
          "[sheet]") {
    auto hall = tests::hall();
    hall.job.asked.reset();
    CHECK(has(sheet(hall), "NOT YET ASKED"));
    hall.job.asked = job::Asked{};
    CHECK_FALSE(has(sheet(hall), "NOT YET ASKED"));
    hall.job.asked.reset();
    hall.job.help.region.value = "US";
    CHECK_FALSE(has(sheet(hall, "US"), "NOT YET ASKED"));
}

TEST_CASE("whom to call for an animal stands by the other numbers", "[sheet]") {
    auto hall = tests::hall();
    CHECK_FALSE(has(sheet(hall), "For an animal"));
    hall.who.vet_phone = "(02) 5550 0177";
    CHECK(has(sheet(hall), "For an animal: "));
    hall.who.vet_name =
        job::LocalText({{"en", "Vet at the mill"}, {"es", "Veterinaria del molino"}}, "en");
    CHECK(has(sheet(hall), "Vet at the mill"));
    CHECK(has(sheet(hall, "AU", "es"), "Veterinaria del molino"));
}

TEST_CASE("what to do when a pet ate some names the line for animals where there is one",
          "[sheet]") {
    auto hall = tests::hall();
    CHECK(has(sheet(hall), "Call a vet and read out the label."));
    hall.who.vet_phone = "(02) 5550 0177";
    CHECK(has(sheet(hall), "Call a vet or *(02)~5550~0177*. Read out the label."));
}

TEST_CASE("what all labels say stands in the statements once, then what some say besides",
          "[sheet]") {
    auto hall = tests::hall();
    for (auto& mix : hall.plan.mixes) {
        mix.hazard.signal_word = safety::SignalWord::danger;
        mix.hazard.hazard_codes = {"H360FD"};
        mix.hazard.precaution_codes = {"P102", "P280"};
    }
    auto& last = hall.plan.mixes.back().hazard;
    last.hazard_codes = {"H360FD", "H319"};
    last.precaution_codes = {"P102", "P280-eyes"};
    const auto text = sheet(hall);
    const auto at = text.find("Keep out of reach of children. (P102)");
    REQUIRE(at != std::string::npos);
    CHECK(text.find("(P102)", at + 50) == std::string::npos);
    const auto also = text.find("as well:", at);
    REQUIRE(also != std::string::npos);
    for (const char* own :
         {"Wear protective gloves. (P280)", "Causes serious eye irritation. (H319)",
          "Wear protective gloves/eye protection. (P280)"}) {
        INFO(own);
        CHECK(text.find(own) > also);
        CHECK(has(text, own));
    }
    // Of another signal word: by itself, whole.
    last.signal_word = safety::SignalWord::warning;
    const auto apart = sheet(hall);
    CHECK_FALSE(has(apart, "as well:"));
    CHECK(apart.find("(P102)", apart.find("(P102)") + 1) != std::string::npos);
}

TEST_CASE("titles, places and names are in the language of the sheet", "[sheet]") {
    auto hall = tests::hall();
    hall.job.title.value = job::LocalText({{"en", "The Hall"}, {"es", "La Sala"}}, "en");
    hall.job.stations[0].place.value = job::LocalText(
        {{"en", "Kitchen, behind the bins"}, {"es", "Cocina, tras los cubos"}}, "en");
    hall.job.stations[0].unit =
        diag::At<job::LocalText>{job::LocalText({{"en", "Flat 12"}, {"es", "Piso 12"}}, "en"), {}};
    hall.job.help.contact->name.value =
        job::LocalText({{"en", "Hall caretaker"}, {"es", "La encargada"}}, "en");
    const auto spanish = sheet(hall, "AU", "es");
    for (const char* text : {"La Sala", "Piso 12: Cocina", "tras los cubos", "La encargada"}) {
        INFO(text);
        CHECK(has(spanish, text));
    }
    for (const char* text : {"The Hall", "Flat 12", "Hall caretaker"}) {
        INFO(text);
        CHECK_FALSE(has(spanish, text));
    }
    CHECK(has(sheet(hall), "Flat 12: Kitchen"));
    // No German: as in the main language, and nothing is left out.
    CHECK(has(sheet(hall, "AU", "de"), "Flat 12: Kitchen"));
}

namespace {

/// The hall as two flats and a stair on another floor.
tests::Scenario flats() {
    auto it = tests::hall();
    const auto unit = [](const char* name) {
        return diag::At<job::LocalText>{job::LocalText(name), {}};
    };
    it.job.stations[0].unit = unit("Flat 1");
    it.job.stations[1].unit = unit("Flat 2");
    it.job.stations[2].unit = unit("Flat 1");
    it.job.stations[3].floor = diag::At<std::string>{"Upper floor", {}};
    it.job.stations[4].floor = diag::At<std::string>{"Upper floor", {}};
    return it;
}

std::string sheet_of_home(const tests::Scenario& it, const document::Home& home) {
    return plain_text(
        document::household_sheet(it.job, it.plan, it.who, tests::words_in("en", "AU"), &home));
}

}  // namespace

TEST_CASE("each flat and each floor outside flats has a sheet of its own", "[sheet]") {
    CHECK(document::homes(tests::hall().job).empty());
    const auto it = flats();
    const auto homes = document::homes(it.job);
    REQUIRE(homes.size() == 3);
    CHECK(homes[0].unit == "Flat 1");
    CHECK(homes[1].unit == "Flat 2");
    CHECK(homes[2].floor == "Upper floor");
}

TEST_CASE("the sheet of a flat has its own stations first and leaves none of the others out",
          "[sheet]") {
    const auto it = flats();
    const std::string all = sheet(it);
    for (const document::Home& home : document::homes(it.job)) {
        const std::string text = sheet_of_home(it, home);
        const auto own = text.find("## Where it is: " + home.unit + home.floor);
        const auto rest = text.find("## In the rest of the building");
        REQUIRE(own != std::string::npos);
        REQUIRE(rest != std::string::npos);
        REQUIRE(own < rest);
        for (const auto& station : it.job.stations) {
            if (!station.mix) continue;
            const auto place = plan::whereabouts(it.job, station).place;
            INFO(home.unit << home.floor << ": " << place);
            const auto at = text.find(place);
            REQUIRE(at != std::string::npos);
            CHECK(all.find(place) != std::string::npos);
            const bool is_own = home.unit.empty()
                                    ? station.floor && **station.floor == home.floor
                                    : station.unit && (*station.unit)->main() == home.unit;
            CHECK((at < rest) == is_own);
        }
        // What saves a life is on it as on the building's.
        for (const char* part : {"## If someone swallows some", "In the eyes", "A pet ate some",
                                 "[sign] Swallowed? Call", "Read out the number on the label"}) {
            INFO(part);
            CHECK(has(text, part));
        }
    }
}

TEST_CASE("the poison centre finds every container's number beside what is in it", "[sheet]") {
    const auto it = tests::hall();
    const auto text = sheet(it);
    const auto table = text.substr(text.find("## For the poison centre"));
    for (const auto& station : it.plan.stations) {
        if (station.mix.empty()) continue;
        INFO(station.id);
        const std::string& last =
            station.container_ids.empty() ? station.id : station.container_ids.back();
        CHECK(table.find(last) != std::string::npos);
    }
}

TEST_CASE("hundreds of stations alike stand in several rows, none left out", "[sheet]") {
    auto it = tests::hall();
    const auto first = it.job.stations[0];
    const auto planned = it.plan.stations[0];
    for (int i = 0; i < 200; ++i) {
        auto station = first;
        station.id = {"N" + std::to_string(i), {}};
        station.place = {job::LocalText("Room " + std::to_string(i) + ", by the door"), {}};
        it.job.stations.push_back(station);
        auto more = planned;
        more.id = *station.id;
        more.container_ids = {*station.id + "-1"};
        it.plan.stations.push_back(more);
    }
    const auto table = document::contents_by_number(it.job, it.plan, tests::words_in("en", "AU"));
    CHECK(table.rows.size() > 8);
    std::string all;
    for (const auto& row : table.rows) {
        const std::string numbers = text::plain(row.front().text);
        CHECK(std::count(numbers.begin(), numbers.end(), ',') < 25);
        all += numbers + ", ";
    }
    for (int i = 0; i < 200; ++i) CHECK(has(all, "N" + std::to_string(i) + "-1"));
}
