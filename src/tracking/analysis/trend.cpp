#include "tracking/analysis/trend.hpp"

#include <algorithm>

#include "tracking/analysis/efficacy.hpp"

namespace gallipot::analysis {

Trend trend_of(const Counts& counts) {
    Trend trend;
    if (counts.empty()) return trend;
    trend.counts = counts.totals.size();
    trend.compared = trend.counts > 1 ? 1 : 0;
    trend.first = counts.totals.front();
    trend.last = counts.totals.back();
    const auto [low, high] = std::ranges::minmax(counts.totals, {}, &Total::seen);
    trend.lowest = low.seen;
    trend.highest = high.seen;
    trend.any_seen = counts.any_seen;
    trend.none_since = counts.none_seen.since;
    trend.change_percent = percent_change(trend.first.seen, trend.last.seen);
    return trend;
}

Trend trend_of_all(const std::vector<const Counts*>& places) {
    Trend trend;
    const bool any_again =
        std::ranges::any_of(places, [](const Counts* place) { return place->totals.size() > 1; });
    Pool first, last;
    bool none_left = true;
    for (const Counts* place : places) {
        if (place->all == 0) continue;
        trend.any_seen = trend.any_seen || place->any_seen;
        none_left = none_left && place->none_seen.since;
        if (place->none_seen.since)
            trend.none_since = std::max(trend.none_since.value_or(*place->none_seen.since),
                                        *place->none_seen.since);
        if (place->totals.size() < (any_again ? 2 : 1)) continue;
        const Total &front = place->totals.front(), &back = place->totals.back();
        if (trend.counts == 0) trend.first.time = front.time;
        trend.first.time = std::min(trend.first.time, front.time);
        trend.last.time = std::max(trend.last.time, back.time);
        first.add(front);
        last.add(back);
        trend.counts += place->totals.size();
        if (place->totals.size() > 1) ++trend.compared;
        for (const Total& total : place->totals)
            trend.highest = std::max(trend.highest, total.seen);
    }
    if (!none_left) trend.none_since.reset();
    trend.first = first.total(trend.first.time);
    trend.last = last.total(trend.last.time);
    trend.lowest = std::min(trend.first.seen, trend.last.seen);
    if (trend.counts > 0) trend.change_percent = percent_change(trend.first.seen, trend.last.seen);
    return trend;
}

void fit(Trend& trend, std::span<const std::vector<Count>> groups) {
    trend.decline = fit_decline(groups);
}

void set_intervals(Trend& trend, const Dispersion& dispersion) {
    trend.dispersion = dispersion;
    if (trend.decline.fitted == Fitted::yes)
        set_slope(trend, trend.decline.slope, trend.decline.slope_interval(dispersion));
}

void set_slope(Trend& trend, double slope, const Interval& interval) {
    trend.slope = slope;
    trend.slope_interval = interval;
    trend.half = fall_time(slope, interval, 0.5);
    trend.tenth = fall_time(slope, interval, 0.1);
}

}  // namespace gallipot::analysis
