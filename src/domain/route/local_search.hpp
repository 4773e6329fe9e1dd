#pragma once

#include <cstddef>
#include <vector>

#include "domain/route/round.hpp"

namespace gallipot::route {

/// Indices into the points of a round, in the order in which they are visited.
using Order = std::vector<std::size_t>;

/// The straight distance, in metres.
double apart(Point a, Point b);

/// `order` made shorter by 2-opt (Croes 1958) and or-opt (Or 1976) until neither finds a shorter
/// one. Only places at most `reach` apart in the order are tried with each other.
Order shortened(const std::vector<Point>& points, Order order, std::size_t reach);

}  // namespace gallipot::route
