#pragma once

#include <variant>

#include "papers/layout/label_arrangement.hpp"

namespace gallipot::layout {

/// The sizes a label is set in.
struct Fit {
    Trial trial;
    bool easy = false;  ///< all of it at the design's easy sizes or above
};

/// The bounds of a search, from the design, the rules and the printer.
struct Bounds {
    Trial least, easy, largest;  ///< `step` unused
    int steps = 1;
    int places = 1;
    double dots_per_mm = 0;  ///< modules are whole dots; 0: any size
};
Bounds bounds(const Canvas& canvas, const Contents& contents);

/// Looks for the best way a label fits, in the first place for the code that lets it. With as much
/// of its text as goes at the easy sizes; if not even the shortest does, the same half-way between
/// easy and least; if that fails too, the shortest as near to half-way as goes, and then as much
/// more text as there is room for. Then type, code and pictograms grow, in this order, all to their
/// easy sizes before one grows further. When not even the shortest texts fit at the least sizes:
/// what is missing.
std::variant<Fit, Lack> fit(const Arrangement& arrangement, const Bounds& bounds);

}  // namespace gallipot::layout
