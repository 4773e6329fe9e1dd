#pragma once

#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/reference/pests.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// How much and how many of the baits against a pest stand in each home and room, and how far apart
/// outdoors, beside what is published; with the sources. Nothing for a pest of which no figure is
/// published.
std::vector<Block> bait_amounts(const job::Job& job, const plan::Plan& plan,
                                const reference::Pest& pest, const text::Catalog& words);

}  // namespace gallipot::document
