#pragma once

#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <optional>

namespace gallipot::command {

/// JSON in the order it is written.
using Json = nlohmann::ordered_json;

/// Twelve significant digits: more than any figure here can carry.
inline Json figure(double value) {
    if (!std::isfinite(value)) return nullptr;
    return std::strtod(fmt::format("{:.12g}", value).c_str(), nullptr);
}
inline Json figure(const std::optional<double>& value) {
    return value ? figure(*value) : Json(nullptr);
}

}  // namespace gallipot::command
