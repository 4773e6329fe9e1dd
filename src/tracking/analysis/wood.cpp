#include "tracking/analysis/wood.hpp"

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

Verdict wood_verdict(std::optional<LocalTime> treated, const Counts& counts) {
    if (counts.totals.empty()) return Verdict::wood_unknown;
    // Without a day of treatment the first look is how it was before.
    const LocalTime start = treated.value_or(counts.totals.front().time);
    LocalTime quiet_from = start;
    bool active = false;
    for (std::size_t i = counts.baseline ? 1 : 0; i < counts.totals.size(); ++i) {
        const Total& total = counts.totals[i];
        if (total.time <= start) continue;
        active = total.seen > 0;
        if (active) quiet_from = total.time;
    }
    if (active) return Verdict::wood_active;
    const bool whole_season =
        days_between(quiet_from, counts.totals.back().time) >= rules::flying_season_days;
    return whole_season ? Verdict::wood_quiet : Verdict::wood_unknown;
}

}  // namespace gallipot::analysis
