#pragma once

#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <optional>

namespace gallipot::cli {

/// JSON in the order it is written.
using Json = nlohmann::ordered_json;

/// Twelve significant digits: more than any figure here can carry. Values
/// below 1e-9 are rounding noise in every unit used here: they become 0, never -0.
inline Json figure(double value) {
    if (!std::isfinite(value)) return nullptr;
    if (std::abs(value) < 1e-9) return 0.0;
    return std::strtod(fmt::format("{:.12g}", value).c_str(), nullptr);
}
inline Json figure(const std::optional<double>& value) {
    return value ? figure(*value) : Json(nullptr);
}

}  // namespace gallipot::cli
