#include "domain/plan/placements.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "planned.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using Catch::Matchers::ContainsSubstring;

namespace {

const std::string ant_mix =
    "mixes:\n  m: { title: Mix, against: ants, form: liquid, basis: percent w/w, ingredients: "
    "{ boric acid: 1, water: rest }, batch: 4 L }\n"
    "containers:\n  cup: { holds: 60 mL, fill: 45 mL }\n  jar: { holds: 400 mL, fill: 300 mL }\n";

const std::string roach_mix =
    "mixes:\n  m: { title: Mix, against: cockroaches, form: dry, basis: percent w/w, ingredients: "
    "{ boric acid: 30, flour: 70 } }\n"
    "containers:\n  tray: { holds: 30 mL, fill: 10 mL }\n";

std::string station(const std::string& id, const std::string& place, const std::string& container,
                    int count, const std::string& more = "") {
    return "  - { id: " + id + ", place: '" + place + "', mix: m, container: " + container +
           ", count: " + std::to_string(count) + more + " }\n";
}

/// Messages of one code, in file order.
std::vector<std::string> messages(const Planned& it, const std::string& code) {
    std::vector<std::string> all;
    for (const auto& found : it.out.in_order())
        if (found.code == code) all.push_back(found.message.english());
    return all;
}

const reference::Pest& pest(const char* name) {
    return *reference::pest_named(name);
}

}  // namespace

// Ten flats with 90 mL each passed as one house with 900 mL.
TEST_CASE("each flat is a house of its own") {
    std::string stations = "stations:\n";
    for (int flat = 1; flat <= 10; ++flat)
        stations += station("F" + std::to_string(flat), "Kitchen, sink", "cup", 2,
                            ", unit: Flat " + std::to_string(flat));
    const auto it = plan_of(head + "premises: flats\n" + ant_mix + stations);
    const auto little = messages(it, "little-bait");
    REQUIRE(little.size() == 10);
    CHECK_THAT(little[2], ContainsSubstring("90 mL of liquid against ants in Flat 3") &&
                              ContainsSubstring("200 to 800 mL a house"));
    CHECK_FALSE(it.warns("without-unit"));
    // Each points at the first station of its flat: the head has 4 lines, premises one, the mix
    // and containers five, "stations:" one.
    std::vector<std::size_t> lines;
    for (const auto& found : it.out.in_order())
        if (found.code == "little-bait") lines.push_back(found.place.line);
    REQUIRE(lines.size() == 10);
    CHECK(lines.front() == 12);
    CHECK(lines.back() == 21);

    const auto homes = plan::homes_with_bait(it.job, it.plan, pest("ants"));
    REQUIRE(homes.size() == 10);
    CHECK(homes[9].unit->main() == "Flat 10");
    CHECK(units::in_mL(homes[9].liquid) == Approx(90));
    CHECK(homes[9].liquid_baits == 2);
}

TEST_CASE("flats that nobody names count as one house, and that is said") {
    std::string stations = "stations:\n";
    for (int flat = 1; flat <= 10; ++flat)
        stations += station("F" + std::to_string(flat), "Flat " + std::to_string(flat), "cup", 2);
    const auto it = plan_of(head + "premises: flats\n" + ant_mix + stations);
    CHECK_FALSE(it.warns("little-bait"));
    CHECK_THAT(it.message("without-unit"), ContainsSubstring("counted as one house"));
    // A home is one house, and nothing is published for a home against carpenter ants.
    CHECK_FALSE(plan_of(head + "premises: home\n" + ant_mix + stations).warns("without-unit"));
    std::string others = ant_mix;
    others.replace(others.find("against: ants"), 13, "against: carpenter ants");
    CHECK_FALSE(plan_of(head + "premises: flats\n" + others + stations).warns("without-unit"));
}

TEST_CASE("what stands outside the flats counts for none of them") {
    const auto it = plan_of(head + "premises: flats\n" + ant_mix + "stations:\n" +
                            station("S1", "Stairs", "cup", 1) +
                            station("F1", "Kitchen, sink", "jar", 2, ", unit: Flat 1") +
                            station("F2", "Hall", "cup", 1, ", unit: Flat 1"));
    CHECK_FALSE(it.warns("little-bait"));
    const auto homes = plan::homes_with_bait(it.job, it.plan, pest("ants"));
    REQUIRE(homes.size() == 2);
    CHECK(units::in_mL(homes[0].liquid) == Approx(645));
    CHECK(homes[1].unit == nullptr);
    CHECK(homes[1].outside_units);
    CHECK(units::in_mL(homes[1].liquid) == Approx(45));
}

// Two to four stations a house (Urban Insect Pests, CABI).
TEST_CASE("all liquid in one container is few baits") {
    const auto one = plan_of(head + ant_mix + "stations:\n" + station("A1", "Hall", "jar", 1));
    CHECK_FALSE(one.warns("little-bait"));
    CHECK_THAT(one.message("few-baits"), ContainsSubstring("1 container of liquid against ants in "
                                                           "all") &&
                                             ContainsSubstring("2 to 4 stations"));
    CHECK_FALSE(plan_of(head + ant_mix + "stations:\n" + station("A1", "Hall", "jar", 2))
                    .warns("few-baits"));
}

// Field trials of 1989: seven in the kitchen, two in the bathroom, twelve in a flat.
TEST_CASE("baits against cockroaches are counted by kitchen, bathroom and home") {
    const auto rooms = [](int kitchen, int bathroom, int elsewhere) {
        std::string stations = "stations:\n" + station("K1", "Kitchen, cupboards", "tray", kitchen);
        if (bathroom > 0) stations += station("B1", "Bathroom, basin", "tray", bathroom);
        if (elsewhere > 0) stations += station("H1", "Hall, closet", "tray", elsewhere);
        return plan_of(head + roach_mix + stations);
    };
    CHECK_FALSE(rooms(7, 2, 3).warns("few-baits"));
    CHECK_THAT(rooms(6, 2, 4).message("few-baits"),
               ContainsSubstring("6 containers in Kitchen (7 to 10 published);"));
    CHECK_THAT(rooms(9, 1, 2).message("few-baits"),
               ContainsSubstring("1 container in Bathroom (2 published);"));
    const std::string few = rooms(6, 1, 0).message("few-baits");
    CHECK_THAT(few, ContainsSubstring("6 containers in Kitchen") &&
                        ContainsSubstring("1 container in Bathroom") &&
                        ContainsSubstring("7 containers in all (12 a home published)") &&
                        ContainsSubstring("ready-made"));
    // A room that no table knows has no number of its own.
    CHECK_THAT(plan_of(head + roach_mix + "stations:\n" + station("W1", "Shop", "tray", 3))
                   .message("few-baits"),
               ContainsSubstring("against cockroaches: 3 containers in all"));
    // A workshop is no home.
    CHECK_FALSE(plan_of(head + "premises: workshop\n" + roach_mix + "stations:\n" +
                        station("W1", "Shop", "tray", 3))
                    .warns("few-baits"));
}

TEST_CASE("a kitchen on the floor plan without bait is counted as one with none") {
    const auto it = plan_of(head + roach_mix + "stations:\n" +
                            station("K1", "behind the range", "tray", 9, ", at: [1, 1]") +
                            station("H1", "closet", "tray", 3, ", at: [4, 1]") +
                            "floor_plan:\n  rooms:\n"
                            "    - { name: Küche, outline: [[0, 0], [3, 0], [3, 3], [0, 3]] }\n"
                            "    - { name: Flur, outline: [[3, 0], [5, 0], [5, 3], [3, 3]] }\n"
                            "    - { name: Bad, outline: [[5, 0], [7, 0], [7, 3], [5, 3]] }\n");
    const auto rooms = plan::rooms_with_number(it.job, pest("cockroaches"));
    REQUIRE(rooms.size() == 2);
    CHECK(rooms[0].name(it.job, "de") == "Küche");
    CHECK(rooms[0].baits == 9);
    CHECK(rooms[1].name(it.job, "de") == "Bad");
    CHECK(rooms[1].baits == 0);
    CHECK_THAT(it.message("few-baits"), ContainsSubstring("0 containers in Bad (2 published)") &&
                                            !ContainsSubstring("Küche"));
}

TEST_CASE("a room in a key of its own is counted, and not what its place begins with") {
    const auto it =
        plan_of(head + roach_mix + "stations:\n" +
                station("K1", "Bathroom wall, low", "tray", 6, ", room: Kitchen") +
                station("K2", "Kitchen, sink", "tray", 1) +
                station("S1", "Kitchen cupboard, from the sale", "tray", 5, ", room: Cellar"));
    const auto rooms = plan::rooms_with_number(it.job, pest("cockroaches"));
    REQUIRE(rooms.size() == 1);
    CHECK(rooms[0].name(it.job, "en") == "Kitchen");
    CHECK(rooms[0].baits == 7);
}

TEST_CASE("the kitchen of each flat is counted by itself") {
    const auto it = plan_of(head + "premises: flats\n" + roach_mix + "stations:\n" +
                            station("A1", "Kitchen, sink", "tray", 12, ", unit: Flat 1") +
                            station("B1", "Kitchen, sink", "tray", 5, ", unit: Flat 2"));
    const auto few = messages(it, "few-baits");
    REQUIRE(few.size() == 1);
    CHECK_THAT(few[0], ContainsSubstring("5 containers in Flat 2: Kitchen") &&
                           ContainsSubstring("5 containers in Flat 2 (12 a home"));
}

// Gel in flats: 7.5 g to 60 g by what the traps caught (Miller, in Pest Control Technology 2019).
TEST_CASE("little paste is told in grams") {
    const auto paste = [](int count) {
        return plan_of(head +
                       "mixes:\n  m: { title: Mix, against: cockroaches, form: paste, basis: "
                       "percent w/w, ingredients: { boric acid: 40, sugar: 40, water: rest } }\n"
                       "containers:\n  tray: { holds: 5 mL, fill: 0.5 mL }\nstations:\n" +
                       station("K1", "Cupboards", "tray", count));
    };
    CHECK_THAT(paste(2).message("little-bait"),
               ContainsSubstring("g of paste against cockroaches") &&
                   ContainsSubstring("7.5 to 60 g a home"));
    CHECK_FALSE(paste(20).warns("little-bait"));
}

// Along an outside wall one every 10 to 20 feet (UC Marin Master Gardeners): 3 to 6 m.
TEST_CASE("outdoors the nearest neighbours stand 3 to 6 m apart") {
    const auto gaps = [](const std::vector<std::string>& points,
                         const std::string& against = "ants", const std::string& more_rooms = "") {
        std::string mix = ant_mix;
        mix.replace(mix.find("against: ants"), 13, "against: " + against);
        std::string stations = "stations:\n";
        for (std::size_t i = 0; i < points.size(); ++i)
            stations +=
                station("A" + std::to_string(i + 1), "Wall", "cup", 2, ", at: " + points[i]);
        const auto it =
            plan_of(head + mix + stations +
                    "floor_plan:\n  rooms:\n"
                    "    - { name: Hall, outline: [[0, 0], [9, 0], [9, 9], [0, 9]] }\n" +
                    more_rooms);
        std::string all;
        for (const plan::Gap& gap : plan::unusual_gaps(it.job, pest(against.c_str())))
            all += *gap.from->id + "-" + *gap.to->id + " " +
                   std::to_string(std::lround(100 * units::in_m(gap.apart))) + " ";
        return all;
    };
    // 3, 4, 5: a right triangle whose sides are all as published.
    CHECK(gaps({"[10, 0]", "[13, 0]", "[13, 4]"}).empty());
    // A pair is told once, whichever of the two is asked.
    CHECK(gaps({"[10, 0]", "[11, 0]", "[11, 4]"}) == "A1-A2 100 ");
    // 5 and 12: 13 m to the nearest.
    CHECK(gaps({"[-5, 0]", "[-10, -12]"}) == "A1-A2 1300 ");
    // Indoors no distance is published; one alone has no neighbour.
    CHECK(gaps({"[1, 1]", "[2, 1]"}).empty());
    CHECK(gaps({"[10, 0]", "[1, 1]"}).empty());
    // A yard that is drawn as a room is outdoors.
    const std::string yard = "    - { name: Yard, outline: [[9, 0], [20, 0], [20, 9], [9, 9]] }\n";
    CHECK(gaps({"[10, 1]", "[11, 1]"}, "ants", yard) == "A1-A2 100 ");
    // Nothing is published for carpenter ants.
    CHECK(gaps({"[10, 0]", "[11, 0]"}, "carpenter ants").empty());
}

// The search along x must find what trying every pair finds.
TEST_CASE("of many stations outdoors each is told its nearest neighbour") {
    std::mt19937 random(18);  // NOLINT(cert-msc32-c,cert-msc51-cpp): the same points every time
    std::uniform_int_distribution<int> half_metres(0, 120);
    std::vector<std::pair<double, double>> points;
    std::string stations = "stations:\n";
    for (int i = 0; i < 150; ++i) {
        points.emplace_back(half_metres(random) / 2.0, half_metres(random) / 2.0);
        stations += station("A" + std::to_string(i), "Wall", "cup", 1,
                            ", at: [" + std::to_string(points.back().first) + ", " +
                                std::to_string(points.back().second) + "]");
    }
    const auto it = plan_of(head + ant_mix + stations +
                            "floor_plan:\n  rooms:\n    - { name: Hall, outline: [[-9, -9], [-6, "
                            "-9], [-6, -6], [-9, -6]] }\n");
    std::map<std::string, double> told;
    for (const plan::Gap& gap : plan::unusual_gaps(it.job, pest("ants"))) {
        for (const job::Station* each : {gap.from, gap.to}) {
            const auto [known, is_new] = told.emplace(*each->id, units::in_m(gap.apart));
            if (!is_new) known->second = std::min(known->second, units::in_m(gap.apart));
        }
    }
    int unusual = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        double nearest = 1e9;
        for (std::size_t j = 0; j < points.size(); ++j)
            if (j != i)
                nearest = std::min(nearest, std::hypot(points[i].first - points[j].first,
                                                       points[i].second - points[j].second));
        const auto found = told.find("A" + std::to_string(i));
        INFO("A" << i << " " << nearest);
        if (nearest >= 3 && nearest <= 6) continue;
        ++unusual;
        REQUIRE(found != told.end());
        CHECK(found->second == Approx(nearest));
    }
    CHECK(unusual > 20);
}
