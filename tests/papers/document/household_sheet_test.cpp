#include "papers/document/household_sheet.hpp"

#include "catch_all.hpp"

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
    CHECK(has(sheet(hall), "still right?"));
    hall.who.vouched = true;
    CHECK_FALSE(has(sheet(hall), "still right?"));
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
    for (const char* text : {"La Sala", "Piso 12: Cocina", "Tras los cubos", "La encargada"}) {
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
