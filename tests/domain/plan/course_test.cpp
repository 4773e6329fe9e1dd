// A job in the course of time: what the plan holds on a day.
#include "domain/job/on_day.hpp"
#include "planned.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using job::Date;
using plan::ContainerKind;

namespace {

Date day(unsigned month, unsigned number) {
    return Date{std::chrono::year{2027}, std::chrono::month{month}, std::chrono::day{number}};
}

Planned planned_on(const std::string& text, Date on) {
    diag::Diagnostics read;
    const auto job =
        job::read_job(std::make_shared<const diag::Source>(diag::Source{"job.yaml", text}), read);
    INFO(diag::print(read));
    REQUIRE(job);
    Planned it;
    it.job = job::on_day(*job, on);
    it.plan = plan::make_plan(
        it.job, [](const job::Station& station) { return "LINK/" + *station.id; }, it.out);
    CHECK_FALSE(it.out.has_errors());
    return it;
}

const std::string story = head + R"(
mixes:
  syrup: { title: Syrup, against: ants, form: liquid, basis: percent w/w, ingredients: { borax: 1, sugar: 20, water: rest }, lasts: 30 d }
  strong: { title: Strong, against: ants, form: liquid, basis: percent w/w, ingredients: { borax: 2, sugar: 20, water: rest }, lasts: 20 d }
containers: { cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm } }
stations:
  - { id: K1, place: Kitchen, mix: syrup, container: cup, placed: 2027-03-02 19:30, until: 2027-03-20 }
  - { id: K2, place: Hall, mix: syrup, container: cup, placed: 2027-03-04 19:30, was: [B7],
      changes: [{ on: 2027-03-16 18:00, mix: strong, count: 2 }, { on: 2027-03-25, count: 1 }] }
  - { id: C1, place: Yard, control: true }
visits: [1 d, 7 d]
)";

const plan::Container& cup(const Planned& it, const std::string& id) {
    for (const auto& one : it.plan.containers)
        if (one.id == id) return one;
    FAIL("no container " << id);
    throw 0;
}

std::vector<std::string> cups(const Planned& it) {
    std::vector<std::string> all;
    for (const auto& one : it.plan.containers)
        if (one.kind == ContainerKind::cup) all.push_back(one.id);
    return all;
}

using Ids = std::vector<std::string>;

}  // namespace

TEST_CASE("containers keep their numbers as their count grows and shrinks", "[course]") {
    CHECK(cups(planned_on(story, day(3, 10))) == Ids{"K1", "K2"});
    CHECK(cups(planned_on(story, day(3, 18))) == Ids{"K1", "K2-1", "K2-2"});
    CHECK(cups(planned_on(story, day(3, 22))) == Ids{"K2-1", "K2-2"});
    CHECK(cups(planned_on(story, day(3, 25))) == Ids{"K2"});
    CHECK(planned_on(story, day(3, 25)).station("K2").most_containers == 2);
}

TEST_CASE("what a change brought is dated from that day, and its mix too", "[course]") {
    const Planned before = planned_on(story, day(3, 10));
    CHECK(cup(before, "K2").made == day(3, 2));
    CHECK(cup(before, "K2").replace_by == day(4, 3));
    CHECK(before.plan.mix("strong") == nullptr);
    const Planned after = planned_on(story, day(3, 18));
    CHECK(cup(after, "K1").made == day(3, 2));
    CHECK(cup(after, "K2-2").made == day(3, 16));
    CHECK(cup(after, "K2-2").replace_by == day(4, 5));  // 20 days
    CHECK(after.station("K2").no_sprays_until == day(4, 5));
    CHECK(after.station("K2").placed == before.station("K2").placed);
    CHECK(after.station("K2").visits == before.station("K2").visits);
    for (const auto& one : after.plan.containers)
        if (one.id == "bottle strong") {
            CHECK(one.made == day(3, 16));
            CHECK(one.replace_by == day(4, 5));
        } else if (one.id == "bottle syrup") {
            CHECK(one.made == day(3, 2));
        }
    CHECK(units::in_g(cup(after, "K2-1").contents->boric_acid_equivalent) ==
          Approx(2 * units::in_g(cup(before, "K2").contents->boric_acid_equivalent)).epsilon(0.03));
}

TEST_CASE("what is taken up needs no mix, stands on no walk, and is still known", "[course]") {
    const Planned it = planned_on(story, day(3, 22));
    CHECK(it.plan.stations.size() == 2);
    CHECK(it.plan.walk.size() == 2);
    REQUIRE(it.plan.retired.size() == 1);
    const plan::Station& k1 = it.plan.retired[0];
    CHECK(&it.station("K1") == &k1);
    CHECK(&it.plan.station_at(2) == &k1);
    CHECK(k1.link == "LINK/K1");
    CHECK(k1.until == day(3, 20));
    // The last cup of syrup is gone, and with it the syrup.
    CHECK(it.plan.mix("syrup") == nullptr);
    REQUIRE(it.plan.idle_mixes.size() == 1);
    CHECK(it.plan.idle_mixes[0].hazard.hazardous());
    REQUIRE(k1.per_container != nullptr);
    CHECK(units::in_mL(k1.per_container->fill) == Approx(45));
    for (const auto& bought : it.plan.shopping)
        if (bought.name == "borax") CHECK(units::in_g(bought.mass) < 4);
    CHECK(it.station("K2").was == Ids{"B7"});
}

TEST_CASE("a control keeps its dates when the bait it goes with is taken up", "[course]") {
    const auto visits = [](Date on) { return planned_on(story, on).station("C1").visits; };
    CHECK(visits(day(3, 10)) == visits(day(3, 22)));
    CHECK(visits(day(3, 10)).front() ==
          plan::LocalTime(std::chrono::local_days(day(3, 3))) + std::chrono::minutes(1170));
}
