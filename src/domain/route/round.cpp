#include "domain/route/round.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "domain/route/tours.hpp"

namespace gallipot::route {

namespace {

constexpr std::size_t most_exact = 12;

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

double apart(Point a, Point b) {
    const double x = a.x - b.x;
    const double y = a.y - b.y;
    return std::sqrt(x * x + y * y);
}

std::vector<std::size_t> round(const std::vector<Point>& points) {
    if (points.size() <= 3) {
        Order all(points.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        return all.empty() ? all : turned(points, std::move(all));
    }
    return turned(points, points.size() <= most_exact ? exact(points) : improved(points));
}

double length(const std::vector<Point>& points, const std::vector<std::size_t>& order) {
    double sum = 0;
    for (std::size_t i = 0; i < order.size(); ++i)
        sum += apart(points.at(order[i]), points.at(order[(i + 1) % order.size()]));
    return sum;
}

}  // namespace gallipot::route
