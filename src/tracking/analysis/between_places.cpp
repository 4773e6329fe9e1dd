#include "tracking/analysis/between_places.hpp"

#include <algorithm>
#include <cmath>

namespace gallipot::analysis {

namespace {

double weighted_squares(std::span<const Arm> arms, double between) {
    double sum = 0;
    for (const Arm& arm : arms) {
        if (arm.empty()) continue;
        const double mean = mean_of(arm, between).value;
        for (const Estimate& place : arm)
            sum += std::pow(place.value - mean, 2) / (place.variance + between);
    }
    return sum;
}

}  // namespace

Estimate mean_of(const Arm& arm, double between) {
    double weights = 0, sum = 0;
    for (const Estimate& place : arm) {
        const double weight = 1 / (place.variance + between);
        weights += weight;
        sum += weight * place.value;
    }
    return {sum / weights, 1 / weights};
}

double variance_between(std::span<const Arm> arms) {
    double degrees = 0;
    for (const Arm& arm : arms)
        if (!arm.empty()) degrees += static_cast<double>(arm.size()) - 1;
    if (degrees == 0 || weighted_squares(arms, 0) <= degrees) return 0;
    double low = 0, high = 1e-6;
    while (weighted_squares(arms, high) > degrees) {
        low = high;
        high *= 2;
    }
    constexpr int halvings = 200;  // until low and high are neighbours
    for (int i = 0; i < halvings; ++i) {
        const double middle = low + (high - low) / 2;
        if (middle <= low || middle >= high) break;
        (weighted_squares(arms, middle) > degrees ? low : high) = middle;
    }
    return low + (high - low) / 2;
}

}  // namespace gallipot::analysis
