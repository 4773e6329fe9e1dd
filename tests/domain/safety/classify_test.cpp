#include "domain/safety/classify.hpp"

#include <cmath>
#include <stdexcept>

#include "catch_all.hpp"

#include "domain/reference/substances.hpp"

using namespace gallipot;
using namespace gallipot::safety;
using Codes = std::vector<std::string>;

namespace {

/// A component measured exactly, its share in percent by mass.
Component part(const std::string& substance, double percent) {
    return {substance, reference::find_substance(substance), percent / 100, percent / 100, false};
}

Hazard clp(std::vector<Component> parts) {
    return classify(parts, RuleSet::clp_like);
}
Hazard us(std::vector<Component> parts) {
    return classify(parts, RuleSet::us_household);
}

}  // namespace

// CLP Annex I, Table 3.7.2: 0.3 % and above; and the worked consequences that follow from it.
TEST_CASE("one per cent of boric acid is toxic to reproduction", "[safety]") {
    const Hazard hazard = clp({part("boric acid", 1.0), part("sugar", 25), part("water", 74)});
    CHECK(hazard.signal_word == SignalWord::danger);
    CHECK(hazard.classes == Codes{"Repr. 1B"});
    CHECK(hazard.hazard_codes == Codes{"H360FD"});
    CHECK(hazard.pictograms == std::vector{Pictogram::health_hazard});
    CHECK(hazard.unknown.empty());
    CHECK(hazard.basis == "basis.clp_like");
    CHECK(hazard.boron_compounds == Approx(0.01));
}

// Annex VI, Note 11 (Delegated Regulation (EU) 2023/1434): the sum of the boron compounds.
TEST_CASE("boron compounds below the limit each are added up", "[safety]") {
    CHECK(clp({part("boric acid", 0.2)}).classes.empty());
    CHECK(clp({part("borax", 0.2)}).classes.empty());
    const Hazard both = clp({part("boric acid", 0.2), part("borax", 0.2), part("water", 99.6)});
    CHECK(both.hazard_codes == Codes{"H360FD"});
    CHECK(both.notes == Codes{"basis.note_11"});
}

TEST_CASE("the limit of 0.3 % itself is classified", "[safety]") {
    for (const char* borate :
         {"boric acid", "borax", "borax pentahydrate", "disodium octaborate"}) {
        INFO(borate);
        CHECK(clp({part(borate, 0.3)}).signal_word == SignalWord::danger);
        CHECK(clp({part(borate, 0.29999)}).signal_word == SignalWord::none);
        CHECK(clp({part(borate, 0.29999)}).hazard_codes.empty());
        CHECK(clp({part(borate, 0.29999)}).pictograms.empty());
    }
    // A sum that a double holds a bit short.
    REQUIRE(0.06 / 100 + 0.24 / 100 < 0.3 / 100);
    CHECK(clp({part("boric acid", 0.06), part("borax", 0.24)}).signal_word == SignalWord::danger);
}

// CLP Annex I, Table 3.3.3 (from memory): 10 % of eye irritants and above.
TEST_CASE("tetraborates irritate eyes from ten per cent on", "[safety]") {
    const Hazard five = clp({part("borax", 5)});
    CHECK(five.classes == Codes{"Repr. 1B"});

    const Hazard third = clp({part("borax", 33), part("icing sugar", 67)});
    CHECK(third.classes == Codes{"Repr. 1B", "Eye Irrit. 2"});
    CHECK(third.hazard_codes == Codes{"H360FD", "H319"});
    // Article 26 drops GHS07 only beside GHS05 or a GHS08 for the airways; Danger stands alone.
    CHECK(third.pictograms == std::vector{Pictogram::health_hazard, Pictogram::exclamation});
    CHECK(third.signal_word == SignalWord::danger);
    CHECK(third.notes == Codes{"basis.note_11", "basis.eye_self_classified"});

    CHECK(clp({part("borax", 10)}).hazard_codes.size() == 2);
    CHECK(clp({part("borax", 9.999)}).hazard_codes.size() == 1);
    CHECK(clp({part("borax", 5), part("borax pentahydrate", 5)}).hazard_codes.size() == 2);
    // ECHA dossier 33597, section 7.4.1: no classification is indicated for boric acid.
    CHECK(clp({part("boric acid", 50)}).hazard_codes == Codes{"H360FD"});
    CHECK(clp({part("borax", 6), part("boric acid", 40)}).hazard_codes == Codes{"H360FD"});
    CHECK(clp({part("disodium octaborate", 15)}).hazard_codes == Codes{"H360FD"});
}

TEST_CASE("the upper end of what was measured decides", "[safety]") {
    const Component uncertain{"borax", reference::find_substance("borax"), 0.0028, 0.0031, false};
    CHECK(clp({uncertain}).signal_word == SignalWord::danger);
    CHECK(clp({uncertain}).boron_compounds == Approx(0.0031));
    const Component dusty{"borax", reference::find_substance("borax"), 0.095, 0.101, false};
    CHECK(clp({dusty}).hazard_codes == Codes{"H360FD", "H319"});
    const Component sure{"borax", reference::find_substance("borax"), 0.0028, 0.0029, false};
    CHECK(clp({sure}).signal_word == SignalWord::none);
}

TEST_CASE("a substance of the user's own is unknown unless the job vouches for it", "[safety]") {
    const Component malt{"malt", nullptr, 0.5, 0.5, false};
    const Component vouched{"malt", nullptr, 0.5, 0.5, true};
    const Component stuff{"stuff", nullptr, 0.1, 0.1, false};
    CHECK(clp({malt}).unknown == Codes{"malt"});
    CHECK(us({malt}).unknown == Codes{"malt"});
    CHECK(clp({vouched}).unknown.empty());
    CHECK(clp({part("borax", 1), malt, stuff}).unknown == Codes{"malt", "stuff"});
    // Unknown adds to what is known, and takes nothing away.
    CHECK(clp({part("borax", 1), malt}).signal_word == SignalWord::danger);
}

namespace {
/// A substance that the table lacks.
reference::Substance made_up(reference::StatedHazard hazard) {
    reference::Substance it = *reference::find_substance("sugar");
    it.name = it.formal = "made up";
    it.hazard = std::move(hazard);
    return it;
}
}  // namespace

TEST_CASE("a substance counts by what is stated of it", "[safety]") {
    using reference::HazardClass;
    using reference::StatedHazard;
    const auto stated = [](std::vector<HazardClass> classes) {
        return StatedHazard(reference::Cited<std::vector<HazardClass>>{
            std::move(classes), reference::Provenance::memory, "this test"});
    };
    const auto none = made_up(stated({}));
    CHECK(clp({{"made up", &none, 1, 1, false}}).unknown.empty());
    CHECK(clp({{"made up", &none, 1, 1, false}}).signal_word == SignalWord::none);

    // Nobody has looked it up: unknown on every paper, whatever the rules.
    const auto unstated = made_up(StatedHazard::unstated());
    CHECK(clp({{"soda", &unstated, 0.1, 0.1, false}}).unknown == Codes{"soda"});
    CHECK(us({{"soda", &unstated, 0.1, 0.1, false}}).unknown == Codes{"soda"});
    CHECK(clp({{"soda", &unstated, 0.1, 0.1, true}}).unknown.empty());

    // Irritates eyes and holds no boron (CLP Annex I, Tables 3.3.3 and 3.3.5): Warning.
    const auto irritant = made_up(stated({HazardClass::eye_irritation_2}));
    const Hazard tenth = clp({{"soda", &irritant, 0.1, 0.1, false}});
    CHECK(tenth.signal_word == SignalWord::warning);
    CHECK(tenth.classes == Codes{"Eye Irrit. 2"});
    CHECK(tenth.hazard_codes == Codes{"H319"});
    CHECK(tenth.pictograms == std::vector{Pictogram::exclamation});
    CHECK(tenth.precaution_codes ==
          Codes{"P102", "P264", "P280-eyes", "P305+P351+P338", "P337+P313"});
    CHECK(tenth.notes.empty());
    CHECK(clp({{"soda", &irritant, 0.099, 0.099, false}}).signal_word == SignalWord::none);
    // It adds up with borax, and its US category is in no table here.
    CHECK(clp({{"soda", &irritant, 0.05, 0.05, false}, part("borax", 5)}).hazard_codes ==
          Codes{"H360FD", "H319"});
    CHECK(us({{"soda", &irritant, 0.1, 0.1, false}}).unknown == Codes{"soda"});
}

TEST_CASE("an ingredient of several parts is named once where it is not known", "[safety]") {
    const Component half{"powder", nullptr, 0.5, 0.5, false};
    CHECK(clp({half, half}).unknown == Codes{"powder"});
}

TEST_CASE("a substance counts under each of its names", "[safety]") {
    CHECK(clp({part("borax decahydrate", 12)}).hazard_codes == Codes{"H360FD", "H319"});
    CHECK(clp({part("Borax", 12)}).hazard_codes == Codes{"H360FD", "H319"});
}

// Precautions: only codes of the class tables and the general ones, in the standard's order.
TEST_CASE("precautions come from the tables of the classes", "[safety]") {
    CHECK(clp({part("boric acid", 1)}).precaution_codes ==
          Codes{"P102", "P201", "P280", "P308+P313", "P405", "P501"});
    // Article 28(3): not more than six for the one class.
    CHECK(clp({part("boric acid", 1)}).precaution_codes.size() <= 6);
    CHECK(clp({part("borax", 33)}).precaution_codes == Codes{"P102", "P201", "P264", "P280-eyes",
                                                             "P305+P351+P338", "P308+P313", "P405",
                                                             "P501"});
}

// 40 CFR 156.62, 156.64 and 156.66; rat oral LD50 of 658.9 mg boron/kg (ECHA dossier 29862).
TEST_CASE("US rules end at CAUTION and know no harm to reproduction", "[safety]") {
    const Hazard hazard = us({part("boric acid", 1.0), part("water", 99)});
    CHECK(hazard.signal_word == SignalWord::caution);
    CHECK(hazard.pictograms.empty());
    CHECK(hazard.hazard_codes == Codes{"us_swallowed"});
    CHECK(hazard.precaution_codes == Codes{"us_children", "us_contact"});
    CHECK(hazard.basis == "basis.us_household");
    CHECK(hazard.notes == Codes{"basis.us_differs"});
    CHECK(us({part("borax", 33)}).signal_word == SignalWord::caution);
    CHECK(us({part("boric acid", 0.1)}).signal_word == SignalWord::caution);
    // Below the EU's limit the two do not differ in this.
    CHECK(us({part("boric acid", 0.1)}).notes.empty());
}

TEST_CASE("the oral LD50 of a mix goes by its boron", "[safety]") {
    // Boric acid: 658.9 mg boron/kg over 17.48 % boron is about 3770 mg/kg, category III.
    const Hazard pure = us({part("boric acid", 100)});
    CHECK(*pure.oral_ld50_mg_per_kg == Approx(3770).epsilon(0.002));
    CHECK(pure.classes == Codes{"oral III"});
    // A tenth the strength, ten times the LD50.
    const Hazard tenth = us({part("boric acid", 10), part("sugar", 90)});
    CHECK(*tenth.oral_ld50_mg_per_kg == Approx(37700).epsilon(0.002));
    CHECK(tenth.classes == Codes{"oral IV"});
    // Octaborate tetrahydrate, 20.97 % boron: 3142 mg/kg.
    CHECK(us({part("disodium octaborate", 100)}).classes == Codes{"oral III"});
    CHECK_FALSE(us({part("sugar", 100)}).oral_ld50_mg_per_kg.has_value());
    // 40 CFR 156.62: category III up to 5000 mg/kg. 76 % of boric acid is at 4960, 74 % at 5094.
    CHECK(us({part("boric acid", 76)}).classes == Codes{"oral III"});
    CHECK(us({part("boric acid", 74)}).classes == Codes{"oral IV"});
}

TEST_CASE("the order of the ingredients does not matter", "[safety]") {
    const Hazard last = clp({part("sugar", 60), part("water", 10), part("borax", 30)});
    CHECK(last.hazard_codes == Codes{"H360FD", "H319"});
    CHECK(last.eye_irritants == Approx(0.3));
    const Component malt{"malt", nullptr, 0.5, 0.5, false};
    CHECK(clp({part("sugar", 50), malt}).unknown == Codes{"malt"});
}

TEST_CASE("no borate comes near the EU's acute toxicity 4 nor US category II", "[safety]") {
    for (const auto& substance : reference::substances()) {
        if (!substance.borate()) continue;
        INFO(substance.name);
        const double ld50 = *clp({part(std::string(substance.name), 100)}).oral_ld50_mg_per_kg;
        CHECK(ld50 > 2000);  // CLP Annex I, Table 3.1.1: category 4 ends here
    }
}

TEST_CASE("upper ends that come to more than the whole are one whole", "[safety]") {
    const Component a{"boric acid", reference::find_substance("boric acid"), 0.5, 0.9, false};
    const Component b{"borax", reference::find_substance("borax"), 0.5, 0.9, false};
    const Hazard hazard = us({a, b});
    CHECK(hazard.boron_compounds == 1.0);
    // Half boric acid with 17.48 % boron, half borax with 11.34 %.
    CHECK(*hazard.oral_ld50_mg_per_kg == Approx(658.9 / (0.1748 / 2 + 0.1134 / 2)).epsilon(1e-3));
    const Component c{"borax pentahydrate", reference::find_substance("borax pentahydrate"), 0.5,
                      0.9, false};
    CHECK(clp({b, c}).eye_irritants == 1.0);
}

TEST_CASE("a share that cannot be is refused", "[safety]") {
    CHECK_THROWS_AS(clp({part("borax", -1)}), std::invalid_argument);
    CHECK(clp({part("borax", 0)}).signal_word == SignalWord::none);
    CHECK_THROWS_AS(clp({part("borax", 101)}), std::invalid_argument);
    CHECK_THROWS_AS(clp({part("borax", std::nan(""))}), std::invalid_argument);
    CHECK_THROWS_AS(clp({{"borax", reference::find_substance("borax"), 0.5, 0.4, false}}),
                    std::invalid_argument);
}

TEST_CASE("nothing in the mix, nothing to say", "[safety]") {
    CHECK(clp({}).signal_word == SignalWord::none);
    CHECK(us({}).signal_word == SignalWord::none);
}
