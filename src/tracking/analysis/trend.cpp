#include "tracking/analysis/trend.hpp"

#include <algorithm>
#include <iterator>

#include "tracking/analysis/efficacy.hpp"
#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

void judge(Trend& trend) {
    trend.change_percent = percent_change(trend.first.seen, trend.last.seen);
    trend.half = fall_time(trend.decline, 0.5);
    trend.tenth = fall_time(trend.decline, 0.1);
    const auto slope = trend.decline.cautious_slope_interval();
    if (slope && trend.decline.degrees_of_freedom >= rules::minimum_degrees) {
        trend.falls = slope->high < 0;
        trend.rises = slope->low > 0;
    } else if (same_mean_chance(trend.first.counted(), trend.last.counted(),
                                trend.last.scale / (trend.first.scale + trend.last.scale)) <
               rules::coin_chance) {
        trend.falls = trend.last.seen < trend.first.seen;
        trend.rises = trend.last.seen > trend.first.seen;
    }
}

}  // namespace

Trend trend_of(const Counts& counts) {
    Trend trend;
    if (counts.empty()) return trend;
    trend.counts = counts.totals.size();
    trend.first = counts.totals.front();
    trend.last = counts.totals.back();
    const auto [low, high] = std::ranges::minmax(counts.totals, {}, &Total::seen);
    trend.lowest = low.seen;
    trend.highest = high.seen;
    trend.any_seen = counts.any_seen;
    trend.none_since = counts.none_seen.since;
    trend.decline = fit_decline(counts.groups);
    judge(trend);
    return trend;
}

Trend trend_of_all(const std::vector<const Counts*>& places) {
    Trend trend;
    std::vector<std::vector<Count>> groups;
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
        for (const Total& total : place->totals)
            trend.highest = std::max(trend.highest, total.seen);
        std::ranges::copy(place->groups, std::back_inserter(groups));
    }
    if (!none_left) trend.none_since.reset();
    trend.first = first.total(trend.first.time);
    trend.last = last.total(trend.last.time);
    if (trend.counts == 0) return trend;
    trend.lowest = std::min(trend.first.seen, trend.last.seen);
    trend.decline = fit_decline(groups);
    judge(trend);
    return trend;
}

}  // namespace gallipot::analysis
