#include "domain/route/round.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "domain/route/local_search.hpp"

namespace gallipot::route {

namespace {

Order as_given(std::size_t count) {
    Order order(count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    return order;
}

/// From `start` always on to the nearest that is left.
Order nearest_first(const std::vector<Point>& points, std::size_t start) {
    Order order = as_given(points.size());
    std::swap(order[0], order[start]);
    for (std::size_t i = 1; i < order.size(); ++i) {
        const Point here = points[order[i - 1]];
        const auto nearer = [&](std::size_t a, std::size_t b) {
            return std::pair(apart(here, points[a]), a) < std::pair(apart(here, points[b]), b);
        };
        const auto left = order.begin() + static_cast<std::ptrdiff_t>(i);
        std::swap(order[i], *std::min_element(left, order.end(), nearer));
    }
    return order;
}

/// Up and down through strips of the floor, side by side: quick for any number of points.
Order by_strips(const std::vector<Point>& points) {
    const auto by_x = [](Point a, Point b) { return a.x < b.x; };
    const auto by_y = [](Point a, Point b) { return a.y < b.y; };
    const auto [left, right] = std::minmax_element(points.begin(), points.end(), by_x);
    const auto [low, high] = std::minmax_element(points.begin(), points.end(), by_y);
    const double area = (right->x - left->x) * (high->y - low->y);
    constexpr double narrowest = 1e-3;  // metres; all points may lie on one line
    const double width =
        std::max(std::sqrt(3 * area / static_cast<double>(points.size())), narrowest);
    const double from = left->x;
    const auto strip = [&](std::size_t i) { return std::floor((points[i].x - from) / width); };
    const auto before = [&](std::size_t a, std::size_t b) {
        if (strip(a) != strip(b)) return strip(a) < strip(b);
        const bool upwards = std::fmod(strip(a), 2) == 0;
        return upwards ? points[a].y < points[b].y : points[b].y < points[a].y;
    };
    Order order = as_given(points.size());
    std::stable_sort(order.begin(), order.end(), before);
    return order;
}

/// The shortest round that is found, from any point on and in any direction.
Order find_round(const std::vector<Point>& points) {
    constexpr std::size_t maximum_tried_whole = 500;
    constexpr std::size_t near_in_order = 60;
    if (points.size() > maximum_tried_whole)
        return shortened(points, by_strips(points), near_in_order);
    // About as much work whatever the number of points.
    constexpr std::size_t work = 400'000;
    const std::size_t starts = std::min(
        std::clamp<std::size_t>(work / (points.size() * points.size()), 2, 12), points.size());
    Order best;
    for (std::size_t i = 0; i < starts; ++i) {
        const std::size_t start = i * points.size() / starts;
        Order order = shortened(points, nearest_first(points, start), points.size());
        if (best.empty() || length(points, order) < length(points, best)) best = std::move(order);
    }
    return best;
}

/// From point 0, in the direction whose first leg is shorter.
Order turned(const std::vector<Point>& points, Order order) {
    std::rotate(order.begin(), std::find(order.begin(), order.end(), std::size_t{0}), order.end());
    if (order.size() < 3) return order;
    const double there = apart(points[0], points[order[1]]);
    const double back = apart(points[0], points[order.back()]);
    if (back < there || (back == there && order.back() < order[1]))
        std::reverse(order.begin() + 1, order.end());
    return order;
}

}  // namespace

std::vector<std::size_t> round(const std::vector<Point>& points) {
    if (points.empty()) return {};
    return turned(points, find_round(points));
}

double length(const std::vector<Point>& points, const std::vector<std::size_t>& order) {
    double sum = 0;
    for (std::size_t i = 0; i < order.size(); ++i)
        sum += apart(points.at(order[i]), points.at(order[(i + 1) % order.size()]));
    return sum;
}

}  // namespace gallipot::route
