#include "tracking/analysis/gone.hpp"

#include <algorithm>

#include "tracking/analysis/quantile.hpp"

namespace gallipot::analysis {

NoneLast none_last(std::span<const Total> series) {
    NoneLast none;
    std::size_t end = series.size();
    for (; end > 0 && series[end - 1].seen == 0; --end)
        if (none.rounds == 0 || day_of(series[end - 1].time) != day_of(series[end].time))
            ++none.rounds;
    if (end == 0) return {};
    const auto mean = [&](std::size_t from) {
        double sum = 0;
        for (std::size_t i = from; i < end; ++i) sum += series[i].counted();
        return sum / static_cast<double>(end - from);
    };
    none.expected = std::min({series[end - 1].counted(), mean(end > 1 ? end - 2 : 0), mean(0)});
    return none;
}

double chance_of(const NoneLast& none, double dispersion) {
    return none.rounds == 0 ? 1 : none_chance(none.expected * none.rounds, dispersion);
}

}  // namespace gallipot::analysis
