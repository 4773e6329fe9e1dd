#include "tracking/analysis/control.hpp"

#include <algorithm>

#include "tracking/analysis/efficacy.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

std::chrono::days reach_of(Day first, Day last) {
    return std::max(std::chrono::days(rules::same_round_days), (last - first) / 4);
}

/// The count nearest to `day`, no further than `reach` from it and made on a day from `from` to
/// `to`; of two as near, the later. The end where there is none.
std::vector<Total>::const_iterator nearest(const std::vector<Total>& totals, Day day,
                                           std::chrono::days reach, Day from, Day to) {
    auto best = totals.end();
    const Day last = std::min(day + reach, to);
    auto at = std::ranges::lower_bound(totals, std::max(day - reach, from), {},
                                       [](const Total& t) { return day_of(t.time); });
    const auto distance = [&](const Total& t) { return std::chrono::abs(day_of(t.time) - day); };
    for (; at != totals.end() && day_of(at->time) <= last; ++at)
        if (best == totals.end() || distance(*at) <= distance(*best)) best = at;
    return best;
}

}  // namespace

Span span_of(const Counts& counts, std::optional<LocalTime> placed) {
    Span span;
    span.first = day_of(counts.totals.front().time);
    span.last = day_of(counts.totals.back().time);
    if (placed) span.placed = day_of(*placed);
    span.baseline = counts.baseline;
    span.unit = counts.unit;
    return span;
}

bool Efficacy::held_down() const {
    return formula == Formula::henderson_tilton && *percent >= (1 - rules::halved) * 100;
}

bool Matched::empty_after(double dispersion) const {
    double chance = 1;
    for (const NoneLast& none : nones) {
        if (none.rounds == 0) return false;
        chance *= chance_of(none, dispersion);
    }
    return !nones.empty() && chance <= rules::false_claims;
}

Controls::Controls(std::vector<Counts> stations, bool same_pest)
    : stations_(std::move(stations)), same_pest_(same_pest) {}

Matched Controls::match(const Span& span) const {
    const std::chrono::days reach = reach_of(span.first, span.last);
    const Day earliest_after = span.placed ? *span.placed + std::chrono::days(1) : Day::min();
    const Day latest_before = span.placed && span.baseline ? *span.placed : Day::max();
    Matched matched;
    for (const Counts& counts : stations_) {
        if (counts.unit != span.unit) continue;
        const auto& totals = counts.totals;
        const auto last = nearest(totals, span.last, reach, earliest_after, Day::max());
        if (last == totals.end()) continue;
        // Rather from before placing; but nothing was set down here, so that a count made soon
        // after serves where there is none.
        auto first = nearest(totals, span.first, reach, Day::min(), latest_before);
        if (first == totals.end())
            first = nearest(totals, span.first, reach, Day::min(), Day::max());
        if (first == totals.end() || first >= last) continue;
        std::vector<Count> series;
        for (auto total = first; total <= last; ++total)
            series.push_back(
                {days_between(counts.start, total->time), total->counted(), 1 / total->scale});
        matched.before.add(*first);
        matched.after.add(*last);
        const Day from = day_of(first->time), to = day_of(last->time);
        matched.from = std::min(matched.from.value_or(from), from);
        matched.to = std::max(matched.to.value_or(to), to);
        matched.nones.push_back(none_last({first, last + 1}));
        matched.series.push_back({std::move(series)});
        if (const auto slope = finite_slope(matched.series.back()))
            matched.slopes.push_back(*slope);
    }
    return matched;
}

const Matched& Controls::matched(const Span& span) {
    const auto known = asked_.find(span);
    if (known != asked_.end()) return known->second;
    return asked_.emplace(span, match(span)).first->second;
}

Efficacy Controls::abbott(const Counts& treated, std::optional<LocalTime> placed) const {
    Efficacy result;
    if (!any()) return result;
    result.why_none = NoControl::not_counted;
    if (!same_pest_) return result;
    const std::chrono::days reach(rules::same_round_days);
    const auto counted_then = [&](const Total& total) {
        return std::ranges::any_of(stations_, [&](const Counts& counts) {
            return counts.unit == treated.unit &&
                   nearest(counts.totals, day_of(total.time), reach,
                           placed ? day_of(*placed) + std::chrono::days(1) : Day::min(),
                           Day::max()) != counts.totals.end();
        });
    };
    std::vector<Total> last;
    for (std::size_t i = treated.baseline ? 1 : 0; i < treated.totals.size(); ++i)
        if (counted_then(treated.totals[i])) last.push_back(treated.totals[i]);
    if (last.size() > rules::last_counts) last.erase(last.begin(), last.end() - rules::last_counts);
    if (last.empty()) return result;
    const Day from = day_of(last.front().time) - reach, to = day_of(last.back().time) + reach;
    double rates = 0;
    bool too_few = false;
    for (const Counts& counts : stations_) {
        if (counts.unit != treated.unit) continue;
        double sum = 0;
        std::size_t number = 0;
        for (const Total& total : counts.totals) {
            const Day day = day_of(total.time);
            if (day < from || day > to || (placed && day <= day_of(*placed))) continue;
            sum += total.seen / counts.exposure;
            ++number;
            result.counted_from = std::min(result.counted_from.value_or(day), day);
            result.counted_to = std::max(result.counted_to.value_or(day), day);
        }
        too_few = too_few || (number > 0 && number < rules::fewest_last_counts);
        if (number < rules::fewest_last_counts) continue;
        rates += sum / static_cast<double>(number);
        ++result.controls;
    }
    if (result.controls == 0 || last.size() < rules::fewest_last_counts) {
        if (too_few || result.controls > 0) result.why_none = NoControl::too_few;
        return result;
    }
    double seen = 0;
    for (const Total& total : last) seen += total.seen;
    const double treated_rate = seen / static_cast<double>(last.size()) / treated.exposure;
    result.percent = analysis::abbott(treated_rate, rates / static_cast<double>(result.controls));
    result.formula = result.percent ? Formula::abbott : Formula::none;
    result.why_none = result.percent ? NoControl::none : NoControl::empty_after;
    return result;
}

}  // namespace gallipot::analysis
