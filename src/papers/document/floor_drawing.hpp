#pragma once

#include "domain/job/job.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// One floor of the job's plan with the stations that have a point on it: bait, sprayed areas and
/// places for comparison each with a mark of their own, and where the walk begins when it begins
/// there. Nothing on it: an empty drawing.
FloorDrawing floor_drawing(const job::Job& job, const std::string& floor,
                           const text::Catalog& words);

/// What its marks mean, of those that the floor has.
PlotKey floor_key(const FloorDrawing& floor, const text::Catalog& words);

/// The rooms and what is marked in them, for who does not see the drawing.
std::string in_words(const FloorDrawing& drawing, const text::Catalog& words);

}  // namespace gallipot::document
