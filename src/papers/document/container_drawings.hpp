#pragma once

#include "papers/document/content.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

/// The kinds of container that a mix goes into, as they look from the side: how high to fill each,
/// where its holes, its lid and its label are. Figures in millimetres only where the job has them;
/// the fill line's is that of straight walls.
ContainerDrawings container_drawings(const Recipe& recipe);

}  // namespace gallipot::document
