#pragma once

#include <string>

#include "domain/safety/hazard.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// "DANGER"; empty for none.
std::string signal_word(safety::SignalWord word, const text::Catalog& words);

/// "Call 13 11 26", the number on one line; the emergency number where there is no other; empty
/// where there is none at all.
text::Runs call(const safety::WhoToCall& who, const text::Catalog& words);

}  // namespace gallipot::document
