#pragma once

#include <string>

#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// How to measure an ingredient out with what the job lists: "¾ tsp level: one ½ tsp and one ¼
/// tsp", "250 mL in the jug, to the mark". Without a measure for it: its weight, or for a liquid
/// its volume.
text::StyledText take(const plan::Ingredient& ingredient, const text::Catalog& words);

/// An amount as a job writes it, in the language's words: "1½ tbsp" for "1 1/2 tbsp".
std::string written_amount(const std::string& written, const text::Catalog& words);

/// "¾", "1½", "5"; other numbers as amounts.
std::string kitchen_number(double number, const text::Catalog& words);

}  // namespace gallipot::document
