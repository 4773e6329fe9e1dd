#pragma once

#include <vector>

#include "papers/document/words.hpp"

namespace gallipot::document {

/// What to do, in order, to make and fill the mix: from its form, from what dissolves, and from how
/// warm the water must be. Unless a line below names a source, the steps are common practice.
/// What a mix is stirred in: a jug of the job's that holds a batch, or what has to be found first.
enum class MixedIn { jug, another };
/// Of a mix that is stirred with a liquid. With no jug that holds it: another.
MixedIn mixed_in(const Recipe& recipe);

std::vector<text::StyledText> mixing_steps(const Recipe& recipe);

/// How warm the water should be when it goes in, so that it still dissolves what it must after it
/// has warmed the vessel: ten degrees above, to the next five.
units::Celsius water_temperature(units::Celsius dissolves_above);

/// How often a dry mix doubles: two equal parts first, then each time as much again as is in the
/// jar, until `rest` (over the first part's volume) is in.
int doublings(double rest);

}  // namespace gallipot::document
