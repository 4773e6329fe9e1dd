#include "papers/layout/share_width.hpp"

#include <algorithm>
#include <cstddef>

namespace gallipot::layout {

namespace {

struct Sums {
    double minimum = 0, natural = 0, weight = 0;
};

Sums sums_of(const std::vector<ColumnNeed>& needs, bool weighted_only) {
    Sums sums;
    for (const ColumnNeed& need : needs) {
        if (weighted_only && need.weight <= 0) continue;
        sums.minimum += need.minimum;
        sums.natural += need.natural;
        sums.weight += need.weight;
    }
    return sums;
}

/// Gives `spare` to the weighted columns by weight, none beyond its natural width.
void pour(std::vector<double>& widths, const std::vector<ColumnNeed>& needs, double spare) {
    std::vector<std::size_t> open;
    for (std::size_t i = 0; i < needs.size(); ++i) {
        if (needs[i].weight > 0) open.push_back(i);
    }
    while (spare > 1e-9 && !open.empty()) {
        double weight = 0;
        for (const std::size_t i : open) weight += needs[i].weight;
        const double each = spare / weight;
        const auto filled = std::partition(open.begin(), open.end(), [&](std::size_t i) {
            return widths[i] + each * needs[i].weight < needs[i].natural;
        });
        if (filled == open.end()) {
            for (const std::size_t i : open) widths[i] += each * needs[i].weight;
            return;
        }
        for (auto i = filled; i != open.end(); ++i) {
            spare -= needs[*i].natural - widths[*i];
            widths[*i] = needs[*i].natural;
        }
        open.erase(filled, open.end());
    }
}

}  // namespace

std::optional<std::vector<double>> share_width(const std::vector<ColumnNeed>& needs,
                                               double available) {
    constexpr double slack = 1e-6;
    const Sums all = sums_of(needs, false);
    const Sums weighted = sums_of(needs, true);
    if (all.minimum > available + slack) return std::nullopt;

    std::vector<double> widths;
    widths.reserve(needs.size());
    for (const ColumnNeed& need : needs) widths.push_back(need.natural);
    if (all.natural <= available + slack) {
        const double spare = std::max(available - all.natural, 0.0);
        for (std::size_t i = 0; i < needs.size() && weighted.weight > 0; ++i) {
            widths[i] += spare * needs[i].weight / weighted.weight;
        }
        return widths;
    }
    const double rest = available - (all.natural - weighted.natural);
    if (weighted.weight > 0 && rest >= weighted.minimum) {
        for (std::size_t i = 0; i < needs.size(); ++i) {
            if (needs[i].weight > 0) widths[i] = needs[i].minimum;
        }
        pour(widths, needs, rest - weighted.minimum);
        return widths;
    }
    const double give = (available - all.minimum) / (all.natural - all.minimum);
    for (std::size_t i = 0; i < needs.size(); ++i) {
        widths[i] = needs[i].minimum + std::max(give, 0.0) * (needs[i].natural - needs[i].minimum);
    }
    return widths;
}

}  // namespace gallipot::layout
