#include "tracking/analysis/turns.hpp"

#include <algorithm>
#include <iterator>

#include "tracking/analysis/quantile.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

namespace {

LocalTime settled_from(LocalTime placed) {
    return days_after(placed, rules::drawn_days);
}

/// How likely it is that `after` differs so from `before`.
double difference_chance(const Total& before, const Total& after, double dispersion) {
    return same_mean_chance(before.counted(), after.counted(),
                            after.scale / (before.scale + after.scale), dispersion);
}

/// Where the lowest is that is neither the first nor the last; of as low ones the last.
std::size_t lowest_between(std::span<const Total> series) {
    std::size_t lowest = 1;
    for (std::size_t i = 2; i + 1 < series.size(); ++i)
        if (series[i].seen <= series[lowest].seen) lowest = i;
    return lowest;
}

template <class Keep>
std::vector<std::vector<Count>> filtered(const Counts& counts, Keep keep) {
    std::vector<std::vector<Count>> groups = counts.groups;
    for (auto& group : groups) std::erase_if(group, [&](const Count& c) { return !keep(c.day); });
    return groups;
}

}  // namespace

std::optional<Total> drawn_by_bait(const Counts& counts, std::optional<LocalTime> placed,
                                   double dispersion) {
    if (!placed || !counts.baseline) return std::nullopt;
    const Total& before = counts.totals.front();
    const Total* most = nullptr;
    for (const Total& total : std::span(counts.totals).subspan(1)) {
        if (total.time > settled_from(*placed)) break;
        if (most == nullptr || total.seen > most->seen) most = &total;
    }
    if (most == nullptr || most->seen <= before.seen ||
        difference_chance(before, *most, dispersion) > rules::false_claims)
        return std::nullopt;
    return *most;
}

std::vector<std::vector<Count>> settled_counts(const Counts& counts, LocalTime placed) {
    // Where the day of placing alone is known, the count before may have been made after its noon.
    const double from = days_between(
        counts.start, counts.baseline ? std::max(placed, counts.totals.front().time) : placed);
    const double to = days_between(counts.start, settled_from(placed));
    return filtered(counts, [&](double day) { return day <= from || day > to; });
}

std::vector<std::vector<Count>> counts_from(const Counts& counts, LocalTime from) {
    const double first = days_between(counts.start, from);
    return filtered(counts, [&](double day) { return day >= first; });
}

std::vector<Total> settled_totals(const Counts& counts, std::optional<LocalTime> placed) {
    std::vector<Total> series;
    for (const Total& total : counts.totals)
        if (series.empty() || !placed || total.time > settled_from(*placed))
            series.push_back(total);
    return series;
}

std::optional<double> rebound_chance(std::span<const Total> series, double dispersion) {
    if (series.size() < 3) return std::nullopt;
    const Total &first = series.front(), &last = series.back();
    const Total& lowest = series[lowest_between(series)];
    // A pest that stands for several is one pest.
    const auto is_back = [&](const Total& total) {
        return total.seen >= rules::rebound_factor * lowest.seen &&
               total.seen >= lowest.seen + rules::rebound_more * std::max(total.scale, 1.0);
    };
    if (first.seen == 0 || lowest.seen > rules::halved * first.seen || !is_back(last))
        return std::nullopt;
    double chance = difference_chance(lowest, last, dispersion);
    const Total& before_last = series[series.size() - 2];
    if (before_last.time > lowest.time && is_back(before_last)) {
        Pool both;
        both.add(before_last);
        both.add(last);
        Total twice = both.total(last.time);
        // Two counts are twice as much looking as the lowest one.
        const double share = (1 / lowest.scale) / (1 / lowest.scale + 2 / twice.scale);
        chance = std::min(chance,
                          same_mean_chance(lowest.counted(), twice.counted(), share, dispersion));
    }
    constexpr double ways = 2;
    return std::min(1.0, ways * static_cast<double>(series.size() - 2) * chance);
}

std::vector<std::vector<Count>> stretches(std::span<const Total> series) {
    if (series.empty()) return {};
    const auto count = [&](const Total& total) {
        return Count{days_between(series.front().time, total.time), total.counted(),
                     1 / total.scale};
    };
    const std::size_t turn =
        series.size() < 3
            ? series.size()
            : static_cast<std::size_t>(std::distance(
                  series.begin(), std::ranges::min_element(series, {}, &Total::seen)));
    std::vector<std::vector<Count>> result(2);
    for (std::size_t i = 0; i < series.size(); ++i)
        result[i <= turn ? 0 : 1].push_back(count(series[i]));
    return result;
}

}  // namespace gallipot::analysis
