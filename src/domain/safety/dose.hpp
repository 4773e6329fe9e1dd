#pragma once

#include "base/units/quantity.hpp"

/// How much a child could take in at once. A figure to sort calls by (triage), never a forecast:
/// a supplier's text has 200 mg of boric acid per kg as the least that killed an infant (found,
/// secondary), and four people who took 10 to 297 g at once had no effects in the whole body (Rocky
/// Mountain Poison and Drug Center, 1983 to 1985; abstract found).
namespace gallipot::safety {

namespace limits {

/// The child that doses are told for. Common practice, no source: a toddler of about one year.
constexpr units::Mass child = units::g(10'000);

/// In reach of children or pets a container may hold as much, in mg of boric acid equivalent for
/// each kg of that child. Ours: half of the 200 mg/kg above.
constexpr double in_reach_mg_per_kg = 100;

}  // namespace limits

/// For each kilogram of a child of 10 kg, in mg/kg.
double child_10kg_mg_per_kg(units::Mass boric_acid_equivalent);

/// What is left in a container at a level (1 is as filled), in boric acid equivalent. Low: all that
/// is gone was eaten, so as much of the borate went with it. High: all that is gone was water that
/// dried up, so all of the borate is still there; the same as low for what does not dry.
units::Range<units::Mass> left_at_level(units::Mass boric_acid_equivalent, double level,
                                        bool dries);

}  // namespace gallipot::safety
