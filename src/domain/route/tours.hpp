#pragma once

#include "domain/route/round.hpp"

/// The two ways to find a round; see round() for which is taken when.
namespace gallipot::route {

using Order = std::vector<std::size_t>;

double apart(Point a, Point b);

/// A shortest round by dynamic programming: time and memory grow as 2^n, so for few points only.
Order exact(const std::vector<Point>& points);

/// A short round through any number of points.
Order improved(const std::vector<Point>& points);

}  // namespace gallipot::route
