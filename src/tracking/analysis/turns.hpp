#pragma once

#include <optional>
#include <span>
#include <vector>

#include "tracking/analysis/history.hpp"

/// Where a series of counts turns: more at first, for the bait draws them; and back again after a
/// fall.
namespace gallipot::analysis {

/// The highest count of the first rules::drawn_days after `placed`, where it is more than the one
/// before and more than chance. None without a count from before placing: nobody can tell then.
std::optional<Total> drawn_by_bait(const Counts& counts, std::optional<LocalTime> placed,
                                   double dispersion);

/// The groups of `counts` without the days in which the bait draws them.
std::vector<std::vector<Count>> settled_counts(const Counts& counts, LocalTime placed);
/// Those from `from` on.
std::vector<std::vector<Count>> counts_from(const Counts& counts, LocalTime from);

/// The first count, and those from after the days in which the bait draws them.
std::vector<Total> settled_totals(const Counts& counts, std::optional<LocalTime> placed);

/// The chance that a series only seems to come back: the lowest count that is neither the first nor
/// the last against the last, or against the last two. The lowest was picked from several, and
/// both are tried: the chance is multiplied by how many. None where it does not come back by the
/// rules (rules::rebound_factor, rebound_more, halved), or none were there at first.
std::optional<double> rebound_chance(std::span<const Total> series, double dispersion);

/// The series up to its lowest count and from there on, for how wide it scatters about a fall and a
/// rise.
std::vector<std::vector<Count>> stretches(std::span<const Total> series);

}  // namespace gallipot::analysis
