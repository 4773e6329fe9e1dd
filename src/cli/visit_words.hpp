#pragma once

#include <string>

#include "tracking/visit/visit.hpp"

namespace gallipot::cli {

/// One line that a person reads: "K1, 26 Nov 2026 23:00, Kim, 9 alive, 75 % left, clogged;
/// cleared".
std::string visit_in_words(const visit::Visit& visit);

}  // namespace gallipot::cli
