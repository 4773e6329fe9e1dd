#include "tracking/analysis/control.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

/// The count nearest to `day`, no further than `reach` from it and made on a day from `from` to
/// `to`; of two as near, the later.
const Total* nearest(const std::vector<Total>& totals, Day day, std::chrono::days reach, Day from,
                     Day to) {
    const Total* best = nullptr;
    const Day last = std::min(day + reach, to);
    auto at = std::ranges::lower_bound(totals, std::max(day - reach, from), {},
                                       [](const Total& t) { return day_of(t.time); });
    const auto distance = [&](const Total& t) { return std::chrono::abs(day_of(t.time) - day); };
    for (; at != totals.end() && day_of(at->time) <= last; ++at)
        if (best == nullptr || distance(*at) <= distance(*best)) best = &*at;
    return best;
}

/// Treated and control totals, before and after.
struct Compared {
    Total treated_before, treated_after, control_before, control_after;
};

void fill_henderson_tilton(Efficacy& result, const Compared& c) {
    result.counts = {c.treated_before.seen, c.treated_after.seen, c.control_before.seen,
                     c.control_after.seen};
    result.percent = henderson_tilton(result.counts);
    if (result.percent) {
        result.formula = Formula::henderson_tilton;
        result.why_none = NoControl::none;
        const auto part = [](const Total& total) { return 1 / (total.counted() + 0.5); };
        const auto with_half = [](const Total& total) {
            return (total.counted() + 0.5) * total.scale;
        };
        const double error = std::sqrt(part(c.treated_before) + part(c.treated_after) +
                                       part(c.control_before) + part(c.control_after));
        const double ratio = with_half(c.treated_after) * with_half(c.control_before) /
                             (with_half(c.treated_before) * with_half(c.control_after));
        const double reach =
            std::exp(t_quantile(0.95, std::numeric_limits<double>::infinity()) * error);
        result.interval = Interval{(1 - ratio * reach) * 100, (1 - ratio / reach) * 100};
        return;
    }
    result.why_none = c.treated_before.seen == 0   ? NoControl::treated_empty
                      : c.control_before.seen == 0 ? NoControl::empty_before
                                                   : NoControl::empty_after;
}

std::optional<Day> day_placed(std::optional<LocalTime> placed) {
    return placed ? std::optional(day_of(*placed)) : std::nullopt;
}

}  // namespace

Controls::Controls(std::vector<Counts> stations, bool same_pest)
    : stations_(std::move(stations)), same_pest_(same_pest) {}

Controls::Pooled Controls::pool(const Question& question) const {
    const auto& [before, after, placed, from_before, unit] = question;
    const std::chrono::days reach =
        std::max(std::chrono::days(rules::same_round_days), (after - before) / 4);
    const Day earliest_after = placed ? *placed + std::chrono::days(1) : Day::min();
    const Day latest_before = placed && from_before ? *placed : Day::max();
    Pooled pooled;
    for (const Counts& counts : stations_) {
        if (counts.unit != unit) continue;
        const Total* last = nearest(counts.totals, after, reach, earliest_after, Day::max());
        if (last == nullptr) continue;
        pooled.rates_after += last->seen / counts.exposure;
        ++pooled.stations_after;
        // Rather from before placing; but nothing was set down here, so that a count made soon
        // after serves where there is none.
        const Total* first = nearest(counts.totals, before, reach, Day::min(), latest_before);
        if (first == nullptr) first = nearest(counts.totals, before, reach, Day::min(), Day::max());
        if (first == nullptr || first->time >= last->time) continue;
        pooled.before.add(*first);
        pooled.after.add(*last);
    }
    return pooled;
}

Efficacy Controls::against(const Counts& treated, std::optional<LocalTime> placed) {
    Efficacy result;
    if (!any()) return result;
    result.why_none = NoControl::not_counted;
    if (treated.totals.empty()) return result;
    const Total &first = treated.totals.front(), &last = treated.totals.back();
    const Question question(day_of(first.time), day_of(last.time), day_placed(placed),
                            treated.baseline, treated.unit);
    auto known = asked_.find(question);
    if (known == asked_.end()) known = asked_.emplace(question, pool(question)).first;
    const Pooled& pooled = known->second;

    if (treated.totals.size() > 1 && pooled.before.number() > 0) {
        result.controls = pooled.before.number();
        fill_henderson_tilton(
            result, {first, last, pooled.before.total(first.time), pooled.after.total(last.time)});
        return result;
    }
    const bool only_before = treated.totals.size() == 1 && treated.baseline;
    if (pooled.stations_after == 0 || only_before || !same_pest_) return result;
    result.controls = pooled.stations_after;
    result.counts.treated_after = last.seen / treated.exposure;
    result.counts.control_after = pooled.rates_after / static_cast<double>(pooled.stations_after);
    result.percent = abbott(result.counts.treated_after, result.counts.control_after);
    result.formula = result.percent ? Formula::abbott : Formula::none;
    result.why_none = result.percent ? NoControl::none : NoControl::empty_after;
    return result;
}

Efficacy Controls::against_all(const Total& treated_before, const Total& treated_after,
                               std::optional<LocalTime> placed) const {
    Efficacy result;
    if (!any()) return result;
    result.why_none = NoControl::not_counted;
    const auto day = day_placed(placed);
    Pool before, after;
    for (const Counts& counts : stations_) {
        if (counts.totals.empty()) continue;
        const Total& last = counts.totals.back();
        const Total* first = &counts.totals.front();
        if (day && day_of(last.time) <= *day) continue;
        // The last one up to the day of placing, else the first there is.
        for (const Total& total : counts.totals)
            if (day && day_of(total.time) <= *day) first = &total;
        if (first->time >= last.time) continue;
        before.add(*first);
        after.add(last);
    }
    result.controls = before.number();
    if (result.controls == 0) return result;
    fill_henderson_tilton(result, {treated_before, treated_after, before.total(treated_before.time),
                                   after.total(treated_after.time)});
    return result;
}

}  // namespace gallipot::analysis
