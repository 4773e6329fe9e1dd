#pragma once

#include <cstddef>
#include <vector>

/// The shortest way round some points, as the crow flies: walls and doors are not known.
namespace gallipot::route {

/// Metres on the floor plan.
struct Point {
    double x = 0, y = 0;
};

/// The order in which a round visits `points`, each once: indices into it, the first is 0, and the
/// round goes back to it. Of the two directions the one with the shorter first leg; equal ones by
/// the lower index. The same points give the same order.
///
/// It is a short round, not always the shortest: 2-opt (Croes 1958) and or-opt (Or 1976) from up to
/// twelve starts; of more than 500 points, from one start with moves between near places only.
std::vector<std::size_t> round(const std::vector<Point>& points);

/// How long the round is, the way back included, in metres.
double length(const std::vector<Point>& points, const std::vector<std::size_t>& order);

}  // namespace gallipot::route
