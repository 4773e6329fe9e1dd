#include <chrono>
#include <string>

#include "catch_all.hpp"

#include "base/units/quantity.hpp"
#include "golden.hpp"
#include "job_text.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using namespace gallipot::job;
using namespace std::chrono;

TEST_CASE("the small job has neither errors nor warnings") {
    const ReadJob read_job = read(small_job);
    INFO(diag::print(read_job.found));
    REQUIRE(read_job.job);
    CHECK(read_job.found.warnings() == 0);
}

TEST_CASE("a job that says everything, value by value") {
    const ReadJob read_job = read(full_job);
    INFO(diag::print(read_job.found));
    REQUIRE(read_job.job);
    const Job& job = *read_job.job;
    CHECK(job.title->main() == "Millrace Community Hall");
    CHECK(job.title.place.line == 1);
    CHECK(job.title.place.column == 8);
    CHECK(*job.prepared == year{2027} / March / 2);
    CHECK((*job.by)->main() == "Hall caretaker");
    REQUIRE(job.languages.size() == 3);
    CHECK(*job.languages[2] == "pt-BR");
    CHECK(*job.paper == Paper::letter);
    CHECK(*job.labels == "letter-2x5");
    CHECK(job.currency == "AUD");
    CHECK(**job.time_zone == "Australia/Sydney");
    CHECK(job.kitchen == KitchenSystem::metric);
    CHECK(*job.help.region == "AU");
    CHECK(*job.help.contact->phone == "(02) 5550 0142");
    CHECK(job.help.poison_centre->name->main() == "Poison help line");
    CHECK(**job.help.emergency == "112");
    CHECK(job.help.vet->name->main() == "Vet at the mill");
    CHECK(*job.help.vet->phone == "(02) 5550 0177");
    CHECK(**job.premises == Premises::flats);
    CHECK(*job.asked->whom == "State regulator");
    CHECK(*job.asked->on == year{2027} / February / 20);
    CHECK(*job.asked->answer == "may be done");
    CHECK(**job.log.address == "http://192.168.1.20:8017");
    CHECK(**job.no_sprays_for == units::days(21));
    REQUIRE(job.visits.size() == 6);
    CHECK(*job.visits[0] == units::hours(1));
    CHECK(*job.visits[5] == units::days(30));
    CHECK(*job.round_within == units::days(2));

    REQUIRE(job.measures.size() == 8);
    CHECK(job.measures[0].name == "1 tbsp");
    CHECK(job.measures[0].kind == Measure::Kind::scoop);
    CHECK(units::in_mL(job.measures[0].volume) == Approx(15));  // spoons: metric, not Australian
    CHECK(units::in_mL(job.measures[1].volume) == Approx(2.5));
    CHECK(units::in_mL(job.measures[2].volume) == Approx(20));
    CHECK(units::in_mL(job.measures[3].volume) == Approx(15));
    CHECK(job.measures[4].name == "500 mL jug");  // two jugs are told apart
    CHECK(job.measures[4].kind == Measure::Kind::jug);
    CHECK(units::in_mL(job.measures[4].volume) == Approx(500));
    CHECK(units::in_mL(job.measures[4].marks) == Approx(25));
    CHECK(job.measures[5].name == "1 L jug");
    CHECK(job.measures[6].name == "syringe");
    CHECK(units::in_mL(job.measures[6].marks) == Approx(0.5));
    CHECK(job.measures[7].kind == Measure::Kind::scale);
    CHECK(units::in_g(job.measures[7].capacity) == Approx(2000));
    CHECK(units::in_g(job.measures[7].resolution) == Approx(1));

    REQUIRE(job.supplies.size() == 4);
    const Supply& borax = job.supplies.at("borax");
    CHECK(**borax.substance == "borax decahydrate");
    CHECK(units::in_g(**borax.pack.mass) == Approx(500));
    CHECK(**borax.pack.price == 3.20);
    CHECK(**job.supplies.at("sugar").substance == "sugar");  // a known name stands for itself
    const Supply& malt = job.supplies.at("malt");
    CHECK_FALSE(malt.substance);
    CHECK(units::in_g_per_mL((**malt.density).low) == Approx(1.35));
    CHECK(units::in_g_per_mL((**malt.density).usual) == Approx(1.40));
    CHECK(units::in_g_per_mL((**malt.density).high) == Approx(1.45));
    CHECK(units::in_mL(**malt.pack.volume) == Approx(340));
    CHECK(**malt.hazard == "none");
    const Supply& ready = job.supplies.at("ready mix");
    CHECK(*ready.strength->of == "boric acid");
    CHECK(ready.strength->share->in_percent() == Approx(5));
    CHECK((**ready.density).exact());

    REQUIRE(job.mixes.size() == 4);
    const Mix& syrup = *job.mix("syrup");
    CHECK(syrup.place.line == 37);
    CHECK(syrup.title->main() == "Sweet liquid bait");
    CHECK(*syrup.against == "ants");
    CHECK(*syrup.form == Form::liquid);
    CHECK(*syrup.basis == Basis::percent_w_w);
    REQUIRE(syrup.ingredients.size() == 3);
    CHECK(syrup.ingredients[0].name == "borax");
    CHECK(*syrup.ingredients[0].amount == 1);
    CHECK(syrup.ingredients[1].name == "sugar");
    CHECK(syrup.ingredients[2].rest);
    CHECK(*syrup.limits.at("borax").percent == 1.5);
    CHECK(syrup.spare->in_percent() == Approx(15));
    CHECK(syrup.tolerance->in_percent() == Approx(3));
    CHECK(units::in_mL(**syrup.vessel) == Approx(1000));
    CHECK(**syrup.lasts == units::days(30));
    REQUIRE(syrup.visits);
    CHECK(*syrup.visits->at(1) == units::days(9));
    CHECK_FALSE(syrup.batch);
    const Mix& dry = *job.mix("dry");
    CHECK(*dry.form == Form::dry);
    CHECK(*dry.basis == Basis::parts_by_mass);
    CHECK(**dry.ingredients[0].as == "boric acid");
    CHECK(*dry.ingredients[0].amount == 1);
    CHECK(dry.spare->in_percent() == Approx(10));     // the default
    CHECK(dry.tolerance->in_percent() == Approx(5));  // the default
    CHECK(**dry.lasts == units::days(84));
    CHECK_FALSE(dry.visits);
    CHECK(units::in_mL(**job.mix("timber")->batch) == Approx(750));

    REQUIRE(job.containers.size() == 2);
    const Container& cup = *job.container("cup");
    CHECK(units::in_mL(*cup.holds) == Approx(60));
    CHECK(units::in_mL(*cup.fill) == Approx(45));
    CHECK(units::in_mm(*cup.body.diameter) == Approx(48));
    CHECK(units::in_mm(*cup.body.height) == Approx(44));
    CHECK(cup.openings->side);
    CHECK(units::in_mm(cup.openings->hole) == Approx(6));
    const Container& saucer = *job.container("saucer");
    CHECK(units::in_mm(*saucer.body.lid) == Approx(60));
    CHECK(units::in_cm2(**saucer.exposure) == Approx(18));
    CHECK(job.container("tub") == nullptr);
    CHECK(job.mix("tub") == nullptr);

    REQUIRE(job.stations.size() == 4);
    const Station& k1 = job.stations[0];
    CHECK(*k1.id == "K1");
    CHECK(k1.place->main() == "Kitchen, behind the bins");
    CHECK(**k1.mix == "syrup");
    CHECK(**k1.container == "cup");
    CHECK(k1.count == 2);
    CHECK(**k1.placed == local_days(year{2027} / March / 2) + 19h + 30min);
    CHECK_FALSE(k1.placed_by_day);
    CHECK((*k1.unit)->main() == "Flat 12");
    CHECK(k1.where("es-MX") == "Piso 12: Kitchen, behind the bins");
    CHECK(k1.locked);
    CHECK_FALSE(k1.inspected);
    REQUIRE(k1.near.size() == 5);
    CHECK(*k1.near[2] == Near::plants);
    CHECK(*k1.near[3] == Near::water);
    CHECK(*k1.near[4] == Near::sockets);
    CHECK(*k1.near[0] == Near::children);
    CHECK(*k1.near[1] == Near::rain);
    CHECK((**k1.coldest).degrees == 8);
    CHECK(units::in_m((**k1.at).x) == 3.2);
    CHECK(units::in_m((**k1.at).y) == 1.1);
    CHECK(**k1.floor == "Ground");
    CHECK_FALSE(k1.sprayed());
    REQUIRE(k1.was.size() == 1);
    CHECK(*k1.was[0] == "B7");
    REQUIRE(k1.changes.size() == 2);
    const Change& moved = k1.changes[0];
    CHECK(*moved.on == local_days(year{2027} / March / 20) + 18h);
    CHECK_FALSE(moved.on_by_day);
    CHECK((*moved.place)->main() == "Under the sink");
    CHECK((*moved.room)->main() == "Kitchen");
    CHECK((*moved.unit)->main() == "Flat 13");
    CHECK(**moved.floor == "Upper");
    CHECK(units::in_m((**moved.at).x) == 1);
    CHECK_FALSE(moved.mix);
    CHECK_FALSE(moved.count);
    const Change& stronger = k1.changes[1];
    CHECK(stronger.on_by_day);
    CHECK(**stronger.mix == "strong");
    CHECK(**stronger.container == "saucer");
    CHECK(**stronger.count == 3);
    CHECK_FALSE(stronger.place);
    CHECK(**k1.until == year{2027} / May / 1);
    CHECK(job.stations[1].changes.empty());
    CHECK_FALSE(job.stations[1].until);
    CHECK(job.stations[1].count == 1);
    CHECK(*job.stations[1].visits->at(0) == units::hours(1));
    CHECK(job.stations[2].sprayed());
    CHECK(units::in_m2(**job.stations[2].area) == Approx(6));
    CHECK(job.stations[2].coats == 2);
    CHECK_FALSE(job.stations[2].locked);
    CHECK(*job.stations[2].inspected->by == "Licensed inspector");
    CHECK(*job.stations[2].inspected->on == year{2027} / February / 22);
    CHECK(**job.stations[2].placed == local_days(year{2027} / March / 3) + 8h + 5min);
    CHECK(job.stations[3].control);
    CHECK_FALSE(job.stations[3].mix);

    REQUIRE(job.floor_plan);
    CHECK(units::in_m((**job.floor_plan->start).x) == -0.5);
    REQUIRE(job.floor_plan->rooms.size() == 2);
    CHECK(job.floor_plan->rooms[0].name->main() == "Kitchen");
    CHECK(job.floor_plan->rooms[1].floor.main() == "Upper");
    CHECK(job.floor_plan->rooms[1].outline.size() == 3);
}

TEST_CASE(
    "a region is understood in small letters, a vet as a number alone, a day without an hour") {
    const ReadJob got =
        read(changed(changed(small_job, "region: AU", "region: au\n  vet: 02 5550 0177"),
                     "    container: cup\n", "    container: cup\n    placed: 2027-03-04\n"));
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    CHECK(*got.job->help.region == "AU");
    CHECK(*got.job->help.vet->phone == "02 5550 0177");
    CHECK(got.job->help.vet->name->empty());
    const Station& k1 = got.job->stations[0];
    CHECK(**k1.placed == local_days(year{2027} / March / 4) + 12h);
    CHECK(k1.placed_by_day);
}

TEST_CASE("a floor is found by its name in any language") {
    const ReadJob got = read(changed(
        changed(small_job, "visits:",
                "floor_plan:\n  rooms:\n"
                "    - { name: A, floor: { en: Ground, es: Bajo }, outline: [[0, 0], [5, 0], [5, "
                "4]] }\n"
                "    - { name: B, floor: Upper, outline: [[0, 0], [5, 0], [5, 4]] }\nvisits:"),
        "    container: cup\n", "    container: cup\n    at: [1, 1]\n    floor: Bajo\n"));
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    CHECK(**got.job->stations[0].floor == "Ground");
}

TEST_CASE("what a job leaves out") {
    const ReadJob read_job = read(changed(small_job, "visits: [1 d, 7 d]\n", ""));
    REQUIRE(read_job.job);
    const Job& job = *read_job.job;
    REQUIRE(job.languages.size() == 1);
    CHECK(*job.languages[0] == "en");
    CHECK(*job.paper == Paper::a4);
    CHECK(*job.labels == "a4-2x4");
    CHECK(job.kitchen == KitchenSystem::australian);
    REQUIRE(job.visits.size() == 5);
    CHECK(*job.visits[0] == units::days(1));
    CHECK(*job.visits[4] == units::days(28));
    CHECK(*job.round_within == units::days(1));
    CHECK(job.currency.empty());
    CHECK_FALSE(job.by);
    CHECK_FALSE(job.premises);
    CHECK_FALSE(job.asked);
    CHECK_FALSE(job.help.vet);
    CHECK_FALSE(job.stations[0].unit);
    CHECK_FALSE(job.stations[0].locked);
    CHECK_FALSE(job.floor_plan);
    CHECK_FALSE(job.no_sprays_for);
}

TEST_CASE("the region decides paper, labels and spoons where the job does not") {
    const auto us = read(changed(small_job, "region: AU", "region: US"));
    REQUIRE(us.job);
    CHECK(*us.job->paper == Paper::letter);
    CHECK(*us.job->labels == "letter-2x3");
    CHECK(units::in_mL(us.job->measures[0].volume) == Approx(14.78676478125));
    const auto label = read(changed(small_job, "region: AU",
                                    "region: US\nspoons: label\npaper: A4"
                                    "\nx: 1")
                                .erase(0, 0));
    // Top-level keys cannot stand inside help: this only shows that nothing is guessed.
    CHECK_FALSE(label.job);
    const auto rounded = read("spoons: label\n" + changed(small_job, "region: AU", "region: US"));
    REQUIRE(rounded.job);
    CHECK(units::in_mL(rounded.job->measures[0].volume) == Approx(15));
    const auto british = read(changed(small_job, "region: AU", "region: GB"));
    REQUIRE(british.job);
    CHECK(units::in_mL(british.job->measures[0].volume) == Approx(15));
    const auto imperial =
        read("spoons: imperial\n" + changed(small_job, "region: AU", "region: GB"));
    REQUIRE(imperial.job);
    CHECK(units::in_mL(imperial.job->measures[0].volume) == Approx(17.7581640625));
}

TEST_CASE("the job or its region decides the units of what nobody wrote in one") {
    using units::UnitSystem;
    const auto systems = [](const std::string& first, const std::string& region) {
        const auto got = read(first + changed(small_job, "region: AU", "region: " + region));
        REQUIRE(got.job);
        return got.job->units;
    };
    const auto metric = UnitSystem::metric, us = UnitSystem::us;
    CHECK(systems("", "AU") == units::DisplayUnits{metric, metric, KitchenSystem::australian});
    CHECK(systems("", "US") == units::DisplayUnits{metric, us, KitchenSystem::us});
    CHECK(systems("", "PR") == units::DisplayUnits{metric, us, KitchenSystem::us});
    // Whose spoons readers know is their region's, whatever the job measures with.
    CHECK(systems("spoons: US\n", "GB") ==
          units::DisplayUnits{metric, metric, KitchenSystem::metric});
    CHECK(systems("units: metric\n", "US") ==
          units::DisplayUnits{metric, metric, KitchenSystem::us});
    CHECK(systems("units: US\n", "AU") == units::DisplayUnits{us, us, KitchenSystem::australian});
}

TEST_CASE("openings: how many, how wide, where") {
    struct Case {
        std::string text;
        double area_mm2, hole_mm;
        bool side, closed;
    };
    // Areas by hand: pi/4 x d2 each.
    const auto c = GENERATE(values<Case>({
        {"4 side holes of 6 mm", 113.097, 6, true, false},
        {"1 side hole of 6 mm", 28.2743, 6, true, false},
        {"3 holes in the lid of 8 mm", 150.796, 8, false, false},
        {"1 hole in the lid of 1/4 in", 31.6692, 6.35, false, false},
        {"open top", 1809.557, 0, false, false},  // as wide as the body of 48 mm
        {"closed", 0, 0, false, true},
    }));
    INFO(c.text);
    const auto got = read(changed(full_job, "4 side holes of 6 mm", c.text));
    REQUIRE(got.job);
    const auto& openings = *got.job->container("cup")->openings;
    CHECK(openings.text == c.text);
    CHECK(openings.area.si() * 1e6 == Approx(c.area_mm2).epsilon(1e-5));
    CHECK(units::in_mm(openings.hole) == Approx(c.hole_mm));
    CHECK(openings.side == c.side);
    CHECK(openings.closed == c.closed);
}

TEST_CASE("a job of controls alone needs no mixes") {
    const auto got = read(
        "title: First count\nprepared: 2027-03-02\nhelp: { region: AU, contact: { name: K, phone: "
        "1 } }\n"
        "stations:\n  - { id: C1, place: Yard, control: true }\n");
    INFO(diag::print(got.found));
    CHECK(got.job);
    CHECK(got.found.warnings() == 0);
}

TEST_CASE("a point far outside all rooms is told, a yard beside them is not") {
    const auto told = [](const std::string& at) {
        const auto got = read(
            "title: Plan\nprepared: 2027-03-02\nhelp: { region: AU, contact: { name: K, phone: 1 } "
            "}\n"
            "stations:\n  - { id: C1, place: Yard, control: true, at: " +
            at +
            " }\nfloor_plan: { rooms: [{ name: Hall, outline: [[0, 0], [12, 0], [12, 4], [0, 4]] "
            "}] }\n");
        std::string said;
        for (const auto& each : got.found.in_order())
            if (each.code == "outside-rooms")
                said += each.message.english() + "; " + each.hint.english();
        return said;
    };
    CHECK(told("[6, 3.9]").empty());
    CHECK(told("[-11, 2]").empty());   // as far again as the hall is long
    CHECK(told("[24, -12]").empty());  // twelve metres off, both ways
    CHECK(told("[24.5, 2]") ==
          "'C1' lies 12.5 m outside all rooms of the floor plan, which is drawn so small that it "
          "fits; write at: [2.45, 2] if the decimal point slipped");
    CHECK(told("[500, 400]")
              .ends_with("write metres as the rooms do: 0 to 12 to the right, 0 to 4 "
                         "up"));
}

TEST_CASE("the starter is a job without errors or warnings") {
    const auto got =
        read(slurp(std::filesystem::path(GALLIPOT_SOURCE_DIR) / "templates/jobs/starter.yaml"));
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    CHECK(got.found.warnings() == 0);
    CHECK(got.job->mixes.size() == 2);
}

TEST_CASE("eight mistakes in one file are all reported, each at its place") {
    const std::string text = R"(title: Millrace Community Hall
prepared: 2027-02-30
languages: [en, es]
help:
  region: AU
  contact: { name: Hall caretaker, phone: (02) 5550 0142 }
measures: [1 tbsp, 1/2 tsp]
mixes:
  syrup:
    title: Sweet liquid bait
    against: ants
    form: liquid
    basis: percent w/w
    ingredient: { borax: 1, sugar: 20, water: rest }
    ingredients: { borax: 1, sugr: 20, water: rest }
    lasts: 30 days
    vessel: 1 kg
containers:
  cup: { holds: 60 mL, fill: 45 }
stations:
  - id: K1
    place: Cocina, detrás del cubo
    mix: syrop
    container: cup
    coldest: 8,5 C
  - { id: K1, place: "Store, behind the boiler", mix: syrup, container: cup }
  - { id: C1, place: "Yard, far wall", control: true }
)";
    const auto got = read(text, "hall.yaml");
    CHECK_FALSE(got.job);
    CHECK(got.found.errors() == 8);
    check_golden("errors/eight.txt", diag::print(got.found));
}

TEST_CASE("a time of day is read as people write it") {
    struct Case {
        std::string written;
        int minutes;
    };
    const auto c = GENERATE(values<Case>({{"18:30", 1110},
                                          {"18.30", 1110},
                                          {"18h30", 1110},
                                          {"0:30", 30},
                                          {"6:00 pm", 1080},
                                          {"6 pm", 1080},
                                          {"6PM", 1080},
                                          {"6.15 p.m.", 1095},
                                          {"06:30 am", 390},
                                          {"12:30 am", 30},
                                          {"12:30 pm", 750},
                                          {"11 am", 660},
                                          {"noon", 720}}));
    INFO(c.written);
    const std::string blank = GENERATE(values<std::string>({" ", "  ", ", ", "T"}));
    const auto got =
        read(changed(small_job, "    mix: syrup",
                     "    placed: 2027-03-02" + blank + c.written + "\n    mix: syrup"));
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    const job::LocalTime midnight{std::chrono::local_days(std::chrono::year(2027) / 3 / 2)};
    CHECK((**got.job->stations[0].placed - midnight).count() == c.minutes);
    CHECK_FALSE(got.job->stations[0].placed_by_day);
}

TEST_CASE("yes, words for an open top and numbers in words are read as meant") {
    std::string text = changed(small_job, "control: true", "control: yes");
    text = changed(text, "fill: 45 mL }",
                   "fill: 45 mL, body: { diameter: 48 mm, height: 44 mm }, openings: lid off }");
    text = changed(text, "    container: cup\n",
                   "    container: cup\n    count: two\n    locked: no\n");
    text = changed(text, "lasts: 30 d", "lasts: a week");
    const auto got = read(text);
    INFO(diag::print(got.found));
    REQUIRE(got.job);
    CHECK(got.job->stations[2].control);
    CHECK(got.job->stations[0].count == 2);
    CHECK_FALSE(got.job->stations[0].locked);
    const auto& openings = *got.job->containers[0].openings;
    CHECK_FALSE(openings.side);
    CHECK_FALSE(openings.closed);
    CHECK(units::in_cm2(openings.area) == Approx(18.096).epsilon(1e-4));  // pi/4 of 4.8 cm squared
    CHECK(**got.job->mixes[0].lasts == units::days(7));
}
