#include "tracking/analysis/false_discovery.hpp"

#include <algorithm>

namespace gallipot::analysis {

std::vector<bool> claims_that_hold(std::span<const std::optional<double>> chances, double rate) {
    std::vector<double> sorted;
    for (const auto& chance : chances)
        if (chance) sorted.push_back(*chance);
    std::ranges::sort(sorted);
    double limit = -1;
    for (std::size_t i = 0; i < sorted.size(); ++i)
        if (sorted[i] <= rate * static_cast<double>(i + 1) / static_cast<double>(sorted.size()))
            limit = sorted[i];
    std::vector<bool> hold;
    for (const auto& chance : chances) hold.push_back(chance && *chance <= limit);
    return hold;
}

}  // namespace gallipot::analysis
