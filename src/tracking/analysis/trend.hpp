#pragma once

#include <optional>

#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/history.hpp"

namespace gallipot::analysis {

/// What the counts of one place, or of all together, carry.
struct Trend {
    std::size_t counts = 0;  ///< that are compared
    Total first, last;       ///< only meaningful with counts
    double lowest = 0;       ///< of all of them
    double highest = 0;
    bool any_seen = false;  ///< at any count, in whatever unit
    /// The first of the counts of none that all counts end with; none when pests were seen last.
    std::optional<LocalTime> none_since;
    std::optional<double> change_percent;
    Decline decline;
    std::optional<FallTime> half, tenth;
    /// More than chance: see rules::coin_chance. Both false: the counts do not say.
    bool falls = false;
    bool rises = false;

    [[nodiscard]] bool none_ever() const { return counts > 0 && !any_seen; }
};

Trend trend_of(const Counts& counts);

/// Of several places together: their first counts against their last, each as many as with the
/// exposure of that place's first count, so that every place is compared with itself; and one
/// decline for all with a level for each. Places without a count add nothing; nor do those counted
/// once, which cannot have changed, as long as any was counted again.
Trend trend_of_all(const std::vector<const Counts*>& places);

}  // namespace gallipot::analysis
