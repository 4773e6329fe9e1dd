#include "domain/route/round.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <random>

#include "catch_all.hpp"

using namespace gallipot;
using route::Point;
using Order = std::vector<std::size_t>;

namespace {

std::vector<Point> scattered(std::size_t count, std::minstd_rand& random) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < count; ++i)
        points.push_back({static_cast<double>(random() % 2000) / 100,
                          static_cast<double>(random() % 1200) / 100});
    return points;
}

double shortest_by_trying_all(const std::vector<Point>& points) {
    Order order(points.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    double shortest = route::length(points, order);
    while (std::next_permutation(order.begin() + 1, order.end()))
        shortest = std::min(shortest, route::length(points, order));
    return shortest;
}

bool each_once(Order order, std::size_t count) {
    std::sort(order.begin(), order.end());
    Order all(count);
    std::iota(all.begin(), all.end(), std::size_t{0});
    return order == all;
}

/// berlin52 of TSPLIB (Reinelt 1991, ORSA J. Computing 3:376-384; the instance by Groetschel):
/// found, the same in two public copies. The optimal tour is the one published with it; that these
/// points and that tour give the published 7542 is checked below.
const std::vector<Point> berlin52 = {
    {565, 575},  {25, 185},   {345, 750},  {945, 685},  {845, 655},   {880, 660},  {25, 230},
    {525, 1000}, {580, 1175}, {650, 1130}, {1605, 620}, {1220, 580},  {1465, 200}, {1530, 5},
    {845, 680},  {725, 370},  {145, 665},  {415, 635},  {510, 875},   {560, 365},  {300, 465},
    {520, 585},  {480, 415},  {835, 625},  {975, 580},  {1215, 245},  {1320, 315}, {1250, 400},
    {660, 180},  {410, 250},  {420, 555},  {575, 665},  {1150, 1160}, {700, 580},  {685, 595},
    {685, 610},  {770, 610},  {795, 645},  {720, 635},  {760, 650},   {475, 960},  {95, 260},
    {875, 920},  {700, 500},  {555, 815},  {830, 485},  {1170, 65},   {830, 610},  {605, 625},
    {595, 360},  {1340, 725}, {1740, 245}};
const std::array<int, 52> berlin52_optimal = {1,  49, 32, 45, 19, 41, 8,  9,  10, 43, 33, 51, 11,
                                              52, 14, 13, 47, 26, 27, 28, 12, 25, 4,  6,  15, 5,
                                              24, 48, 38, 37, 40, 39, 36, 35, 34, 44, 46, 16, 29,
                                              50, 20, 23, 30, 2,  7,  42, 21, 17, 3,  18, 31, 22};

/// TSPLIB's EUC_2D: every leg rounded to the nearest whole number.
long tsplib_length(const std::vector<Point>& points, const Order& order) {
    long sum = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const Point a = points[order[i]];
        const Point b = points[order[(i + 1) % order.size()]];
        sum += std::lround(std::hypot(a.x - b.x, a.y - b.y));
    }
    return sum;
}

}  // namespace

TEST_CASE("up to nine points the round is the shortest of all", "[route]") {
    std::minstd_rand random(7);
    for (std::size_t count = 1; count <= 9; ++count) {
        for (int i = 0; i < (count < 9 ? 20 : 4); ++i) {
            const auto points = scattered(count, random);
            const Order order = route::round(points);
            INFO(count << " points, job " << i);
            REQUIRE(each_once(order, count));
            CHECK(order.front() == 0);
            CHECK(route::length(points, order) ==
                  Approx(shortest_by_trying_all(points)).margin(1e-9));
        }
    }
}

TEST_CASE("no points, one point, all points in one place", "[route]") {
    CHECK(route::round({}).empty());
    CHECK(route::round({{1, 2}}) == Order{0});
    for (const std::size_t count : {2u, 9u, 13u, 600u}) {
        const std::vector<Point> heap(count, Point{3, 4});
        CHECK(each_once(route::round(heap), count));
        CHECK(route::length(heap, route::round(heap)) == 0);
    }
}

TEST_CASE("the nearer end of the round comes first", "[route]") {
    // A triangle: both directions are equally long.
    CHECK(route::round({{0, 0}, {4, 0}, {0, 3}}) == Order{0, 2, 1});
    CHECK(route::round({{0, 0}, {3, 0}, {0, 4}}) == Order{0, 1, 2});
}

TEST_CASE("a published instance comes out within 5 % of its optimum", "[route]") {
    REQUIRE(berlin52.size() == 52);
    Order optimal;
    for (const int city : berlin52_optimal) optimal.push_back(static_cast<std::size_t>(city) - 1);
    REQUIRE(each_once(optimal, 52));
    REQUIRE(tsplib_length(berlin52, optimal) == 7542);
    const Order order = route::round(berlin52);
    REQUIRE(each_once(order, 52));
    INFO("ours is " << tsplib_length(berlin52, order) << " long");
    CHECK(tsplib_length(berlin52, order) >= 7542);
    CHECK(100 * tsplib_length(berlin52, order) <= 105 * 7542);
}

TEST_CASE("more points than are tried whole still give a short round", "[route]") {
    // Beardwood, Halton and Hammersley 1959: the shortest round through n random points in an area
    // A is near 0.7124 sqrt(nA) (the constant from Johnson and McGeoch 1996, from memory).
    std::minstd_rand random(11);
    for (const std::size_t count : {501u, 5000u}) {
        const auto points = scattered(count, random);
        const Order order = route::round(points);
        REQUIRE(each_once(order, count));
        const double shortest = 0.7124 * std::sqrt(static_cast<double>(count) * 20 * 12);
        INFO(count << " points: " << route::length(points, order) << " against " << shortest);
        CHECK(route::length(points, order) < 1.25 * shortest);
    }
}

TEST_CASE("the same points give the same round", "[route]") {
    std::minstd_rand random(3);
    const auto points = scattered(120, random);
    CHECK(route::round(points) == route::round(points));
}
