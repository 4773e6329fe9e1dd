#include "domain/plan/walk.hpp"

#include <algorithm>

#include "catch_all.hpp"

#include "planned.hpp"

using namespace gallipot;

namespace {

/// The ids in walking order, a blank between.
std::string walk_of(const std::string& stations, const std::string& floor_plan = {}) {
    const auto planned = tests::plan_of(tests::head + "stations:\n" + stations + floor_plan);
    REQUIRE(planned.plan.walk == plan::walk(planned.job));
    auto each = planned.plan.walk;
    std::sort(each.begin(), each.end());
    for (std::size_t i = 0; i < each.size(); ++i) CHECK(each[i] == i);
    REQUIRE(each.size() == planned.job.stations.size());
    std::string ids;
    for (const std::size_t i : planned.plan.walk)
        ids += (ids.empty() ? "" : " ") + *planned.job.stations[i].id;
    return ids;
}

std::string control(const std::string& id, const std::string& place, const std::string& more = {}) {
    return "  - { id: " + id + ", place: '" + place + "', control: true" + more + " }\n";
}

}  // namespace

TEST_CASE("the walk goes the short way round from its start", "[walk]") {
    // Along a corridor, written down out of order.
    const std::string stations =
        control("A", "Hall, east", ", at: [9, 0]") + control("B", "Hall, west", ", at: [1, 0]") +
        control("C", "Hall, middle", ", at: [5, 0]") + control("D", "Hall, window", ", at: [5, 2]");
    const std::string rooms =
        "  rooms: [{ name: Hall, outline: [[0, 0], [10, 0], [10, 3], [0, 3]] }]\n";
    CHECK(walk_of(stations, "floor_plan:\n  start: [0, 0]\n" + rooms) == "B C A D");
    CHECK(walk_of(stations, "floor_plan:\n  start: [10, 0]\n" + rooms) == "A C B D");
    // Without a start it begins at the first station.
    CHECK(walk_of(stations, "floor_plan:\n" + rooms) == "A C B D");
}

TEST_CASE("stations with no point keep file order in their room", "[walk]") {
    CHECK(walk_of(control("A", "Kitchen, sink") + control("B", "Hall, door") +
                  control("C", "Kitchen, range")) == "A C B");
    CHECK(walk_of(control("A", "Hall, door", ", at: [9, 0]") + control("B", "Kitchen, sink") +
                      control("C", "Kitchen, bins", ", at: [1, 0]") +
                      control("D", "Cellar, stairs") + control("E", "Kitchen, range"),
                  "floor_plan:\n  start: [0, 0]\n  rooms: [{ name: Kitchen, outline: [[0, 0], [4, "
                  "0], [4, 3], [0, 3]] }]\n") == "C B E A D");
}

TEST_CASE("one floor is done before the next", "[walk]") {
    const std::string plan =
        "floor_plan:\n"
        "  start: [0, 10]\n"
        "  rooms:\n"
        "    - { name: Cellar, floor: Below, outline: [[0, 0], [4, 0], [4, 3], [0, 3]] }\n"
        "    - { name: Attic, floor: Above, outline: [[0, 8], [4, 8], [4, 11], [0, 11]] }\n";
    const std::string stations = control("B1", "Cellar, drain", ", at: [1, 1], floor: Below") +
                                 control("A1", "Attic, beam", ", at: [3, 10], floor: Above") +
                                 control("B2", "Cellar, shelf", ", at: [2, 1], floor: Below") +
                                 control("A2", "Attic, stairs", ", at: [1, 10], floor: Above") +
                                 control("B3", "Cellar, window") + control("X", "Yard, wall");
    // It begins on the floor where its start is; of X nobody knows the floor.
    CHECK(walk_of(stations, plan) == "A2 A1 B1 B2 B3 X");
}
