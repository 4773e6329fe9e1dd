#pragma once

#include <string>

#include "base/diag/diagnostic.hpp"

namespace gallipot::tests {

inline diag::SourcePtr file(const std::string& name, const std::string& text) {
    return std::make_shared<const diag::Source>(diag::Source{name, text});
}

/// Every error as "line:column code message", a line each.
inline std::string listed(const diag::Diagnostics& found) {
    std::string out;
    for (const auto& one : found.in_order())
        out += std::to_string(one.place.line) + ":" + std::to_string(one.place.column) + " " +
               one.code + " " + one.message.english() + "\n";
    return out;
}

}  // namespace gallipot::tests
