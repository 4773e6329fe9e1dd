#pragma once

#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// To save ink: the black bands of labels and sheets become frames, their white words black. All
/// else, codes, pictograms and signs, stays as it is.
void lighten(Paper& paper);

}  // namespace gallipot::layout
