#pragma once

#include <vector>

#include "domain/safety/hazard.hpp"
#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// Width and height a pictogram takes up: its frame stands on a point. `side` is that of the frame.
double pictogram_extent(double side);

/// A hazard pictogram of the UN system (GHS, Annex 1; CLP Annex V): black symbol on white in a red
/// frame that stands on its point. Our own drawing. Top left corner of its extent at `at`, mm.
std::vector<Item> pictogram(safety::Pictogram which, Point at, double side);

}  // namespace gallipot::layout
