#pragma once

#include <optional>
#include <vector>

#include "tracking/analysis/decline.hpp"

/// What chance alone makes of a line of counts.
namespace gallipot::analysis {

/// Of each container, or of a place as a whole, its counts.
using Groups = std::vector<std::vector<Count>>;

/// Chance of a rise or fall as large, had nothing changed; none where too little was counted.
std::optional<double> change_chance(const Decline& line, const Groups& groups,
                                    const Dispersion& dispersion);

/// Whether that is a fall; of a line without a slope, too: all pests at the first count.
bool falls_along(const Decline& line, const Groups& groups);

/// Chance that numbers which fall by half (rules::halved) in `days` look as level as a line with
/// this slope and standard error, or rise.
double half_fall_chance(double slope, double error, double degrees, double days);

/// From the first count to the last.
double span_days(const Groups& groups);

}  // namespace gallipot::analysis
