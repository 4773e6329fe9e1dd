#pragma once

#include <string>
#include <string_view>

#include "base/diag/diagnostic.hpp"

namespace gallipot::diag {

/// What goes around the words "error:" and "warning:" for a terminal that shows colours.
struct Paint {
    std::string_view error, warning, end;
};

/// As print() in diagnostic.hpp does, painted and in the translator's language. The quoted line,
/// its place and the code are the same in all languages.
std::string print(const Diagnostics& diagnostics, const Paint& paint, const Translator& translator,
                  std::size_t cap = 100);

}  // namespace gallipot::diag
