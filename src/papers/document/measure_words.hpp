#pragma once

#include <string>

#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// How to measure an ingredient out with what the job lists: "¾ tsp level: one ½ tsp and one ¼
/// tsp", "250 mL in the jug, to the mark". Without a measure for it: its weight, or for a liquid
/// its volume.
text::StyledText take(const plan::Ingredient& ingredient, const text::Catalog& words);

/// The same to be drawn: each tool of the job as often as it is used, scoops and jugs by their
/// names.
std::vector<Tool> tools(const plan::Ingredient& ingredient, const job::Job& job,
                        const text::Catalog& words);

}  // namespace gallipot::document
