#pragma once

#include <string>

#include "cli/figure.hpp"
#include "cli/terminal.hpp"
#include "domain/reference/pests.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::cli {

/// All pests in a line each: support, strengths, a few of their names.
std::string pests_in_words(const text::Catalog& words, const Terminal& terminal);

/// One pest with every value, its standing and its source.
std::string pest_in_words(const reference::Pest& pest, const text::Catalog& words,
                          const Terminal& terminal);

/// The same as JSON; the texts of the advice are those of `words`.
Json pest_json(const reference::Pest& pest, const text::Catalog& words);

}  // namespace gallipot::cli
