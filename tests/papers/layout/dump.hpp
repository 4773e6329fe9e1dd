#pragma once

#include <string>

#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// A paper as plain text, one item a line, coordinates to 0.01 mm: for golden tests and for eyes.
std::string dump(const Paper& paper);

}  // namespace gallipot::layout
