#include "papers/layout/name_places.hpp"

#include <cmath>
#include <random>

#include "catch_all.hpp"

using namespace gallipot::layout;

namespace {

/// Whether a stretch of line passes through a box, by clipping (Liang and Barsky 1984).
bool crosses(Point from, Point to, const Box& box) {
    double enter = 0, leave = 1;
    const auto clip = [&](double by, double room) {
        if (by == 0) return room > 0;
        const double at = room / by;
        if (by < 0)
            enter = std::max(enter, at);
        else
            leave = std::min(leave, at);
        return enter < leave;
    };
    const double dx = to.x - from.x, dy = to.y - from.y;
    return clip(-dx, from.x - box.x) && clip(dx, box.right() - from.x) &&
           clip(-dy, from.y - box.y) && clip(dy, box.bottom() - from.y);
}

struct Named {
    Point at;
    NamePlace place;
};

}  // namespace

TEST_CASE("names stand clear of each other, of marks and of the lines to others",
          "[layout][floor]") {
    std::minstd_rand random(5);
    const Box frame{0, 0, 170, 120};
    constexpr double across = 2.4;
    for (const int count : {1, 2, 5, 20, 60, 120, 200}) {
        // All over the floor, in one corner, and all at one point.
        for (const double spread : {1.0, 0.15, 0.0}) {
            NamePlaces places(frame);
            std::vector<Point> marks;
            for (int i = 0; i < count; ++i) {
                const auto part = [&] { return static_cast<double>(random() % 1000) / 1000; };
                marks.push_back({10 + spread * 150 * part(), 10 + spread * 100 * part()});
                places.mark(
                    {marks.back().x - across / 2, marks.back().y - across / 2, across, across});
            }
            std::vector<Named> named;
            for (const Point& at : marks)
                if (const auto place = places.near(at, across, {6.5, 3.2}))
                    named.push_back({at, *place});
            INFO(count << " marks, spread " << spread << ", " << named.size() << " named");
            if (spread == 1.0 && count <= 60) CHECK(named.size() == marks.size());
            REQUIRE_FALSE(named.empty());
            for (std::size_t i = 0; i < named.size(); ++i) {
                // Clear of the frame, and of the next name in the line: else two are read as one.
                const Box& box = named[i].place.box;
                const Box clear{box.x - 0.9, box.y - 0.4, box.width + 1.8, box.height + 0.8};
                REQUIRE(frame.contains(clear));
                for (const Point& at : marks)
                    REQUIRE_FALSE(named[i].place.box.overlaps(
                        {at.x - across / 2, at.y - across / 2, across, across}));
                for (std::size_t j = 0; j < named.size(); ++j) {
                    if (i == j) continue;
                    REQUIRE_FALSE(clear.overlaps(named[j].place.box));
                    if (const auto& leader = named[j].place.leader)
                        REQUIRE_FALSE(crosses(leader->from, leader->to, named[i].place.box));
                }
            }
        }
    }
}

TEST_CASE("a name stands beside its mark where there is room", "[layout][floor]") {
    NamePlaces places({0, 0, 100, 100});
    const auto first = places.near({50, 50}, 2.4, {6, 3});
    REQUIRE(first);
    CHECK_FALSE(first->leader);
    CHECK(first->box.x > 51.2);
    CHECK(first->box.x < 53.5);
    // At the right edge it stands on the left.
    const auto second = places.near({98, 20}, 2.4, {6, 3});
    REQUIRE(second);
    CHECK(second->box.right() < 97);
}

TEST_CASE("a room's name stands in its middle, or not at all", "[layout][floor]") {
    NamePlaces places({0, 0, 100, 100});
    const std::vector<Point> room{{10, 10}, {50, 10}, {50, 40}, {10, 40}};
    const auto found = places.within(room, {10, 4});
    REQUIRE(found);
    CHECK(std::abs(found->box.x + 5 - 30) <= 1);
    CHECK(std::abs(found->box.y + 2 - 25) <= 1);
    CHECK_FALSE(places.within({{60, 60}, {65, 60}, {65, 65}, {60, 65}}, {10, 4}));
}

TEST_CASE("names rather keep off the walls", "[layout][floor]") {
    NamePlaces places({0, 0, 100, 100});
    places.wall({{53, 0}, {53, 100}});
    const auto found = places.near({50, 50}, 2.4, {6, 3});
    REQUIRE(found);
    CHECK(found->box.right() < 53);
}
