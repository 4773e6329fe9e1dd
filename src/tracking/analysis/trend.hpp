#pragma once

#include <optional>

#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/history.hpp"

namespace gallipot::analysis {

/// What the counts of one place, or of all against one pest, carry.
struct Trend {
    std::size_t counts = 0;    ///< that are compared
    std::size_t compared = 0;  ///< places that were counted more than once
    Total first, last;         ///< only meaningful with counts
    double lowest = 0;         ///< of all of them
    double highest = 0;
    bool any_seen = false;  ///< at any count, in whatever unit
    /// The first of the counts of none that all counts end with; none when pests were seen last.
    std::optional<LocalTime> none_since;
    std::optional<double> change_percent;
    /// The bait drew them: the most that came soon after placing, more than before and more than
    /// chance. The line runs from there on, without what was counted before.
    std::optional<Total> drawn;

    Decline decline;        ///< the line, or the lines with one slope in common
    Dispersion dispersion;  ///< that the intervals go by
    /// Of the numbers, log a day; none where no line has one.
    std::optional<double> slope;
    std::optional<Interval> slope_interval;
    bool of_mean_place = false;  ///< the slope is the mean of places that differ
    std::optional<FallTime> half, tenth;

    // What is claimed. Each leaves out chance: see rules::false_claims.
    bool falls = false;
    bool rises = false;
    bool rebounds = false;  ///< had fallen, and came back
    bool stays = false;     ///< has not fallen to half in the time looked at
    bool gone = false;      ///< none seen last, twice or where some would have been expected

    [[nodiscard]] bool none_ever() const { return counts > 0 && !any_seen; }
};

/// The counts of a place without a line or a claim: first, last, change.
Trend trend_of(const Counts& counts);
/// Of several places together: their first counts against their last, each as many as with the
/// exposure of that place's first count, so that every place is compared with itself. Places
/// without a count add nothing; nor do those counted once, which cannot have changed, as long as
/// any was counted again.
Trend trend_of_all(const std::vector<const Counts*>& places);

/// Fits the line of `groups` and takes its intervals by `dispersion`; claims nothing.
void fit(Trend& trend, std::span<const std::vector<Count>> groups);
void set_intervals(Trend& trend, const Dispersion& dispersion);
/// Another slope than the line's, with its interval.
void set_slope(Trend& trend, double slope, const Interval& interval);

}  // namespace gallipot::analysis
