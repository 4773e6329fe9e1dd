#include <set>

#include "domain/reference/substances.hpp"
#include "domain/safety/classify.hpp"
#include "planned.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using plan::ContainerKind;
using Codes = std::vector<std::string>;
using units::in_g;
using units::in_mL;

namespace {

const plan::Container& container(const Planned& it, const std::string& id) {
    for (const auto& one : it.plan.containers) {
        if (one.id == id) return one;
    }
    FAIL("no container " << id);
    throw 0;
}

std::vector<std::string> ids(const Planned& it) {
    std::vector<std::string> all;
    for (const auto& one : it.plan.containers) all.push_back(one.id);
    return all;
}

/// A liquid with so much of a borate, in two cups with that opening.
std::string liquid(const std::string& ingredients, const std::string& openings) {
    return head + "mixes:\n  m: { title: M, against: ants, form: liquid, basis: percent w/w,\n" +
           "    ingredients: { " + ingredients + ", water: rest }, batch: 2 L, lasts: 30 d }\n" +
           "containers: { cup: { holds: 60 mL, fill: 45 mL, body: { diameter: 48 mm, height: 40 mm "
           "}, openings: " +
           openings + " } }\n" +
           "stations: [{ id: K1, place: Yard, mix: m, container: cup, count: 2, placed: 2027-03-04 "
           "19:30 }]\n";
}

}  // namespace

TEST_CASE("a bought concentrate out of its packet is as hazardous as what is in it") {
    // CLP Annex I, Table 3.7.2: 50 % of a boron compound is above 0.3 %.
    const Planned it = plan_of(head + R"(
supplies:
  strong: { strength: { of: boric acid, percent: 50 }, density: 1.2 g/mL }
mixes:
  m: { title: M, against: ants, form: liquid, basis: percent w/w, ingredients: { strong: 10, water: rest }, batch: 500 mL }
stations: [{ id: C1, place: Yard, control: true }]
)");
    const auto& jar = container(it, "jar of strong");
    CHECK(jar.kind == ContainerKind::decanted);
    CHECK(jar.hazard->signal_word == safety::SignalWord::danger);
    CHECK(jar.hazard->hazard_codes == Codes{"H360FD"});
    CHECK(jar.hazard->unknown.empty());
    CHECK(jar.hazard->boron_compounds == Approx(0.5));
    REQUIRE(jar.parts.size() == 2);
    CHECK(jar.parts[0] == std::pair<std::string, double>{"boric acid", 0.5});
    CHECK(jar.statements() == Codes{"H360FD", "P102", "P201", "P280", "P308+P313", "P405", "P501"});
    // Its 5 % mixture has the same.
    CHECK(container(it, "bottle m").hazard->hazard_codes == Codes{"H360FD"});
}

TEST_CASE("every supply of known or unknown hazard is labelled when it is decanted") {
    const Planned it = plan_of(head + R"(
supplies:
  malt: { density: 1.4 g/mL }
  jam: { density: 1.3 g/mL, hazard: none }
  powder: { strength: { of: borax, percent: 40 }, density: { from: 0.7 g/mL, to: 0.9 g/mL } }
  weak: { strength: { of: boric acid, percent: 0.2 }, density: 1 g/mL }
mixes:
  m: { title: M, against: ants, form: paste, basis: percent w/w, ingredients: { borax: 1, malt: 5, jam: 5, powder: 2, weak: 3, sugar: rest }, batch: 500 mL }
stations: [{ id: C1, place: Yard, control: true }]
)");
    CHECK(ids(it) ==
          Codes{"jar m", "left m", "jar of borax", "jar of malt", "jar of powder", "jar of weak"});
    CHECK(container(it, "jar of malt").hazard->unknown == Codes{"malt"});
    CHECK(container(it, "jar of malt").hazard->signal_word == safety::SignalWord::none);
    // 60 % of the powder is something that nobody described.
    CHECK(container(it, "jar of powder").hazard->unknown == Codes{"powder"});
    CHECK(container(it, "jar of powder").hazard->hazard_codes == Codes{"H360FD", "H319"});
    CHECK(it.mix("m").hazard.unknown == Codes{"malt", "powder"});
    // Below every limit, and yet a borate: whoever finds the jar should know.
    CHECK(container(it, "jar of weak").hazard->signal_word == safety::SignalWord::none);
}

TEST_CASE("every container carries what its label tells") {
    const Planned it = plan_of(head + R"(
mixes:
  syrup: { title: Syrup, against: ants, form: liquid, basis: percent w/w, ingredients: { borax: 1, sugar: 20, water: rest }, lasts: 30 d, vessel: 1 L }
  spray: { title: Spray, against: wood borers, form: spray, basis: percent w/v, ingredients: { borax: 2, water: rest }, batch: 1 L }
containers: { cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm } }
stations:
  - { id: K1, place: Kitchen, mix: syrup, container: cup, count: 2, placed: 2027-03-04 19:30 }
  - { id: C1, place: Yard, control: true }
)");
    CHECK(ids(it) == Codes{"K1-1", "K1-2", "bottle syrup", "left syrup", "sprayer spray",
                           "left spray", "jar of borax"});
    std::set<std::string> once;
    for (const auto& one : it.plan.containers) {
        INFO(one.id);
        CHECK(once.insert(one.id).second);
        REQUIRE(one.hazard != nullptr);
        CHECK(one.made == it.job.prepared.value);
    }
    const auto& cup = container(it, "K1-2");
    CHECK(cup.kind == ContainerKind::cup);
    CHECK(cup.station == "K1");
    CHECK(cup.type == "cup");
    CHECK(cup.mix == "syrup");
    CHECK(cup.link == "link of K1");
    CHECK(cup.contents == it.station("K1").per_container);
    CHECK(cup.placed == it.station("K1").placed);
    CHECK(cup.replace_by == it.station("K1").replace_by);
    CHECK(in_mL(cup.capacity) == Approx(60));
    // Set out, it can be neither locked up nor read about before (CLP Article 28).
    CHECK(cup.statements() == Codes{"H360FD", "P102", "P280", "P308+P313", "P501"});
    const auto& bottle = container(it, "bottle syrup");
    CHECK(in_mL(bottle.capacity) == Approx(1000));
    CHECK(in_g(bottle.contents->mass) == Approx(in_g(it.mix("syrup").mass)));
    CHECK(bottle.replace_by == plan::Date(std::chrono::year{2027} / 4 / 1));
    CHECK(bottle.link.empty());
    const auto& left = container(it, "left syrup");
    CHECK(in_g(left.contents->mass) == Approx(in_g(it.mix("syrup").spare_left)));
    CHECK_FALSE(container(it, "jar of borax").contents);
    CHECK(in_mL(container(it, "sprayer spray").capacity) ==
          Approx(in_mL(it.mix("spray").finished)));
}

TEST_CASE("the class is that of the bait as it has dried until it is replaced") {
    // 0.25 % of boric acid is below the 0.3 % of CLP Annex I, Table 3.7.2. Without its water, sugar
    // and acid are left: 0.25 to 10, which is 2.4 %.
    const Planned open = plan_of(liquid("boric acid: 0.25, sugar: 10", "open top"));
    const auto& cup = container(open, "K1-1");
    CHECK(cup.hazard->hazard_codes == Codes{"H360FD"});
    CHECK(cup.hazard->water_gone > 0.5);
    CHECK(cup.hazard->notes == Codes{"basis.note_11", "basis.when_dried"});
    // What stands closed does not dry; the card goes by the worst of them.
    CHECK(container(open, "bottle m").hazard->hazard_codes.empty());
    CHECK(container(open, "bottle m").hazard->water_gone == 0);
    CHECK(open.mix("m").hazard.hazard_codes == Codes{"H360FD"});

    const Planned closed = plan_of(liquid("boric acid: 0.25, sugar: 10", "closed"));
    CHECK(container(closed, "K1-1").hazard->hazard_codes.empty());
    CHECK(closed.mix("m").hazard.hazard_codes.empty());

    // So much else that it stays below even dry: 0.2 to 80 is 0.25 %.
    const Planned weak = plan_of(liquid("boric acid: 0.2, sugar: 80", "open top"));
    CHECK(container(weak, "K1-1").hazard->hazard_codes.empty());
    CHECK(container(weak, "K1-1").hazard->notes.empty());
}

TEST_CASE("a borax solution that dries irritates eyes from ten per cent on") {
    // CLP Annex I, Table 3.3.3 (memory). 4 % of borax and 10 % of sugar: dry, 29 % of borax.
    const Planned it = plan_of(liquid("borax: 4, sugar: 10", "open top"));
    CHECK(container(it, "K1-1").hazard->hazard_codes == Codes{"H360FD", "H319"});
    CHECK(container(it, "K1-1").hazard->eye_irritants > 0.10);
    CHECK(container(it, "K1-1").hazard->eye_irritants <= 4.0 / 14 * 1.01);
    CHECK(container(it, "bottle m").hazard->hazard_codes == Codes{"H360FD"});
    // As measured: what was so already says nothing of drying.
    const Planned strong = plan_of(liquid("borax: 12, sugar: 10", "open top"));
    CHECK(container(strong, "K1-1").hazard->water_gone == 0);
}

TEST_CASE("where nobody knows how fast it dries it counts as dry") {
    // A paste: 6 % of borax, 50 % of water gone make 12 %.
    const std::string paste = head + R"(
mixes:
  m: { title: M, against: ants, form: paste, basis: percent w/w, ingredients: { borax: 6, water: 50, flour: rest }, lasts: 30 d }
containers: { tray: { holds: 60 mL, fill: 45 mL, openings: OPEN } }
stations: [{ id: K1, place: Yard, mix: m, container: tray }]
)";
    const auto with = [&](const std::string& openings) {
        std::string job = paste;
        return plan_of(job.replace(job.find("OPEN"), 4, openings));
    };
    const Planned open = with("open top");
    CHECK(container(open, "K1").hazard->hazard_codes == Codes{"H360FD", "H319"});
    CHECK(container(open, "K1").hazard->water_gone == 1);
    CHECK(container(open, "K1").hazard->eye_irritants == Approx(0.12).epsilon(0.02));
    CHECK(container(with("closed"), "K1").hazard->hazard_codes == Codes{"H360FD"});
}

TEST_CASE("containers that dry alike share their hazard, and those that do not have their own") {
    const Planned it = plan_of(head + R"(
mixes:
  m: { title: M, against: ants, form: liquid, basis: percent w/w, ingredients: { boric acid: 0.2, sugar: 10, water: rest }, lasts: 30 d }
containers:
  cup: { holds: 60 mL, fill: 45 mL, body: { diameter: 48 mm, height: 40 mm }, openings: open top }
  box: { holds: 60 mL, fill: 45 mL, openings: closed }
stations:
  - { id: K1, place: Yard, mix: m, container: cup, count: 2 }
  - { id: K2, place: Yard, mix: m, container: cup }
  - { id: K3, place: Yard, mix: m, container: box }
)");
    CHECK(container(it, "K1-1").hazard == container(it, "K1-2").hazard);
    CHECK(container(it, "K1-1").hazard == container(it, "K2").hazard);
    CHECK(container(it, "K2").hazard->signal_word == safety::SignalWord::danger);
    CHECK(container(it, "K3").hazard->signal_word == safety::SignalWord::none);
}

TEST_CASE("US labels know no class by drying, and lose nothing by it") {
    const std::string text = liquid("boric acid: 0.25, sugar: 10", "open top");
    std::string us = text;
    us.replace(us.find("region: AU"), 10, "region: US");
    const Planned it = plan_of(us);
    CHECK(container(it, "K1-1").hazard->signal_word == safety::SignalWord::caution);
    CHECK(container(it, "K1-1").hazard->notes == Codes{"basis.us_differs"});
    CHECK(container(it, "bottle m").hazard->notes.empty());
}
