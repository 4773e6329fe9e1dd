#pragma once

#include <chrono>

#include "tracking/visit/visit.hpp"

/// Dates and times of the job's wall clock, and the way between them and numbers of days.
namespace gallipot::analysis {

using visit::LocalTime;
using Day = std::chrono::local_days;

inline Day day_of(LocalTime time) {
    return std::chrono::floor<std::chrono::days>(time);
}

/// Days from `from` to `to`, with their fraction.
inline double days_between(LocalTime from, LocalTime to) {
    return std::chrono::duration<double, std::ratio<86400>>(to - from).count();
}

/// `days` after `from`, to the minute. What lies beyond a thousand years is as good as never:
/// the time is cut there, so that no sum overflows.
inline LocalTime days_after(LocalTime from, double days) {
    constexpr double maximum = 365'000;
    const double kept = days < maximum ? days : maximum;
    return from + std::chrono::floor<std::chrono::minutes>(
                      std::chrono::duration<double, std::ratio<86400>>(kept));
}

}  // namespace gallipot::analysis
