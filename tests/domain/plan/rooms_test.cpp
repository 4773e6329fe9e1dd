#include "domain/plan/rooms.hpp"

#include "catch_all.hpp"

using namespace gallipot;
using units::m;

namespace {

job::Station station(const std::string& id, const std::string& place) {
    job::Station station;
    station.id.value = id;
    station.place.value = place;
    return station;
}

job::Room room(const std::string& name, double left, double top, double right, double bottom) {
    job::Room room;
    room.name.value = name;
    room.outline = {
        {m(left), m(top)}, {m(right), m(top)}, {m(right), m(bottom)}, {m(left), m(bottom)}};
    return room;
}

}  // namespace

TEST_CASE("a place says its room before the comma", "[rooms]") {
    const job::Job job;
    const auto found = plan::whereabouts(job, station("K1", "Kitchen, shelf, left"));
    CHECK(found.room == "Kitchen");
    CHECK(found.place == "shelf, left");
    const auto bare = plan::whereabouts(job, station("Y1", "Yard"));
    CHECK(bare.room == "Yard");
    CHECK(bare.place.empty());
}

TEST_CASE("a room in a key of its own leaves the place whole", "[rooms]") {
    const job::Job job;
    auto one = station("K1", "shelf, left");
    one.room =
        diag::At<job::LocalText>{job::LocalText({{"en", "Kitchen"}, {"es", "Cocina"}}, "en"), {}};
    CHECK(plan::whereabouts(job, one).room == "Kitchen");
    CHECK(plan::whereabouts(job, one).place == "shelf, left");
    CHECK(plan::whereabouts(job, one, "es").room == "Cocina");
    CHECK(one.where("en") == "Kitchen, shelf, left");
    one.unit = diag::At<job::LocalText>{"Flat 12", {}};
    CHECK(one.where("es") == "Flat 12: Cocina, shelf, left");
    CHECK(plan::whereabouts(job, one).room == "Flat 12: Kitchen");
    // Stations are put together by room, whichever way it is said.
    job::Job two;
    two.stations = {station("A", "Kitchen, sink"), station("B", "Yard"), one};
    two.stations[2].unit.reset();
    const auto order = plan::by_room(two);
    CHECK(*order[1]->id == "K1");
}

TEST_CASE("else the floor plan knows", "[rooms]") {
    job::Job job;
    job.floor_plan = job::FloorPlan{{room("Kitchen", 0, 0, 5, 4), room("Stores", 5, 0, 8, 4)}, {}};
    auto one = station("K1", "Behind the bins");
    one.at = diag::At<job::Point>{{m(6), m(1)}, {}};
    CHECK(plan::whereabouts(job, one).room == "Stores");
    CHECK(plan::whereabouts(job, one).place == "Behind the bins");
    one.at->value = {m(20), m(1)};
    CHECK(plan::whereabouts(job, one).room == "Behind the bins");
}

// A floor with a name is the only one all the same: its rooms are found by stations that name none.
TEST_CASE("one floor with a name keeps its rooms", "[rooms]") {
    job::Job job;
    auto kitchen = room("Kitchen", 0, 0, 5, 4);
    kitchen.floor = "Ground";
    job.floor_plan = job::FloorPlan{{kitchen}, {}};
    auto one = station("K1", "Behind the bins");
    one.at = diag::At<job::Point>{{m(1), m(1)}, {}};
    CHECK(plan::whereabouts(job, one).room == "Kitchen");
    // With a second floor nobody knows which is meant.
    auto loft = room("Loft", 0, 0, 5, 4);
    loft.floor = "Upper";
    job.floor_plan->rooms.push_back(loft);
    CHECK(plan::whereabouts(job, one).room == "Behind the bins");
    one.floor = diag::At<std::string>{"Upper", {}};
    CHECK(plan::whereabouts(job, one).room == "Loft");
}

TEST_CASE("rooms and places in the language of the paper", "[rooms]") {
    job::Job job;
    auto kitchen = room("Kitchen", 0, 0, 5, 4);
    kitchen.name.value = job::LocalText({{"en", "Kitchen"}, {"es", "Cocina"}}, "en");
    job.floor_plan = job::FloorPlan{{kitchen}, {}};
    auto one = station("K1", "");
    one.place.value = job::LocalText({{"en", "Behind the bins"}, {"es", "Tras los cubos"}}, "en");
    one.unit =
        diag::At<job::LocalText>{job::LocalText({{"en", "Flat 12"}, {"es", "Piso 12"}}, "en"), {}};
    one.at = diag::At<job::Point>{{m(1), m(1)}, {}};
    CHECK(plan::whereabouts(job, one, "es").room == "Piso 12: Cocina");
    CHECK(plan::whereabouts(job, one, "es").place == "Tras los cubos");
    CHECK(plan::whereabouts(job, one).room == "Flat 12: Kitchen");
    one.place.value = job::LocalText({{"en", "Hall, step"}, {"es", "Entrada, escalon"}}, "en");
    CHECK(plan::whereabouts(job, one, "es-US").room == "Piso 12: Entrada");
    CHECK(plan::whereabouts(job, one, "es-US").place == "escalon");
}

TEST_CASE("an L-shaped room", "[rooms]") {
    const std::vector<job::Point> outline = {{m(0), m(0)}, {m(4), m(0)}, {m(4), m(2)},
                                             {m(2), m(2)}, {m(2), m(4)}, {m(0), m(4)}};
    CHECK(plan::inside(outline, {m(1), m(3)}));
    CHECK(plan::inside(outline, {m(3), m(1)}));
    CHECK_FALSE(plan::inside(outline, {m(3), m(3)}));
    CHECK_FALSE(plan::inside(outline, {m(-1), m(1)}));
}

TEST_CASE("stations of a room stand together", "[rooms]") {
    job::Job job;
    job.stations = {station("K1", "Kitchen, bins"), station("B1", "Stores, boiler"),
                    station("K2", "Kitchen, sink")};
    std::string order;
    for (const auto* one : plan::by_room(job)) order += one->id.value + " ";
    CHECK(order == "K1 K2 B1 ");
}
