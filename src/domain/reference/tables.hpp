#pragma once

#include <vector>

#include "domain/reference/substances.hpp"

/// The parts of the table of substances. Only substances.cpp reads them.
namespace gallipot::reference {

std::vector<Substance> borates();
std::vector<Substance> foods();

/// A value with its standing and source, its type taken from the value.
template <class T>
Cited<T> found(T value, std::string_view source) {
    return {std::move(value), Provenance::found, source};
}
template <class T>
Cited<T> memory(T value, std::string_view source) {
    return {std::move(value), Provenance::memory, source};
}
template <class T>
Cited<T> derived(T value, std::string_view source) {
    return {std::move(value), Provenance::derived, source};
}

/// A bulk or liquid density and its bounds, in g/mL.
constexpr units::Range<units::Density> between(double low, double usual, double high) {
    return {units::g_per_mL(low), units::g_per_mL(usual), units::g_per_mL(high)};
}

}  // namespace gallipot::reference
