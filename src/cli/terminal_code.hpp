#pragma once

#include <string>

#include "papers/qr/symbol.hpp"

namespace gallipot::cli {

/// A code for the terminal, two modules a character, its quiet zone round it. With `colours` black
/// on white whatever the terminal's own colours are; else drawn light for a dark terminal.
std::string terminal_code(const qr::Symbol& symbol, bool colours);

}  // namespace gallipot::cli
