#include "tracking/analysis/control.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

/// The count nearest to `day`, no further than `reach` from it; of two as near, the later.
const Total* nearest(const std::vector<Total>& totals, Day day, std::chrono::days reach) {
    const Total* best = nullptr;
    auto from = std::ranges::lower_bound(totals, day - reach, {},
                                         [](const Total& t) { return day_of(t.time); });
    const auto distance = [&](const Total& t) { return std::chrono::abs(day_of(t.time) - day); };
    for (; from != totals.end() && day_of(from->time) <= day + reach; ++from)
        if (best == nullptr || distance(*from) <= distance(*best)) best = &*from;
    return best;
}

void fill_henderson_tilton(Efficacy& result) {
    const BeforeAfter& c = result.counts;
    result.percent = henderson_tilton(c);
    if (result.percent) {
        result.formula = Formula::henderson_tilton;
        result.why_none = NoControl::none;
        const auto part = [](double count) { return 1 / (count + 0.5); };
        const double error = std::sqrt(part(c.treated_before) + part(c.treated_after) +
                                       part(c.control_before) + part(c.control_after));
        const double ratio = (c.treated_after + 0.5) * (c.control_before + 0.5) /
                             ((c.treated_before + 0.5) * (c.control_after + 0.5));
        const double reach =
            std::exp(t_quantile(0.95, std::numeric_limits<double>::infinity()) * error);
        result.interval = Interval{(1 - ratio * reach) * 100, (1 - ratio / reach) * 100};
        return;
    }
    result.why_none = c.treated_before == 0   ? NoControl::treated_empty
                      : c.control_before == 0 ? NoControl::empty_before
                                              : NoControl::empty_after;
}

}  // namespace

Controls::Controls(std::vector<std::vector<Total>> stations, bool same_pest)
    : stations_(std::move(stations)), same_pest_(same_pest) {}

Controls::Pooled Controls::pool(Day before, Day after) const {
    const std::chrono::days reach =
        std::max(std::chrono::days(rules::same_round_days), (after - before) / 4);
    Pooled pooled;
    for (const auto& totals : stations_) {
        const Total* last = nearest(totals, after, reach);
        if (last == nullptr) continue;
        pooled.after_only += last->seen;
        ++pooled.stations_after;
        const Total* first = nearest(totals, before, reach);
        if (first == nullptr || first->time >= last->time) continue;
        pooled.before += first->seen;
        pooled.after += last->seen;
        ++pooled.stations;
    }
    return pooled;
}

Efficacy Controls::against(const std::vector<Total>& totals, std::optional<LocalTime> placed) {
    Efficacy result;
    if (!any()) return result;
    result.why_none = NoControl::not_counted;
    if (totals.empty()) return result;
    const Total &first = totals.front(), &last = totals.back();
    const std::pair key(day_of(first.time), day_of(last.time));
    auto known = asked_.find(key);
    if (known == asked_.end()) known = asked_.emplace(key, pool(key.first, key.second)).first;
    const Pooled& pooled = known->second;

    if (totals.size() > 1 && pooled.stations > 0) {
        result.counts = {first.seen, last.seen, pooled.before, pooled.after};
        result.controls = pooled.stations;
        fill_henderson_tilton(result);
        return result;
    }
    const bool after_placing = !placed || last.time > *placed;
    if (pooled.stations_after == 0 || !after_placing || !same_pest_) return result;
    const auto count = static_cast<double>(pooled.stations_after);
    result.controls = pooled.stations_after;
    result.counts.treated_after = last.seen;
    result.counts.control_after = pooled.after_only / count;
    result.percent = abbott(result.counts.treated_after, result.counts.control_after);
    result.formula = result.percent ? Formula::abbott : Formula::none;
    result.why_none = result.percent ? NoControl::none : NoControl::empty_after;
    return result;
}

Efficacy Controls::against_all(double treated_before, double treated_after) const {
    Efficacy result;
    if (!any()) return result;
    result.why_none = NoControl::not_counted;
    for (const auto& totals : stations_) {
        if (totals.size() < 2) continue;
        result.counts.control_before += totals.front().seen;
        result.counts.control_after += totals.back().seen;
        ++result.controls;
    }
    if (result.controls == 0) return result;
    result.counts.treated_before = treated_before;
    result.counts.treated_after = treated_after;
    fill_henderson_tilton(result);
    return result;
}

}  // namespace gallipot::analysis
