#pragma once

#include <string>
#include <vector>

#include "papers/fonts/fonts.hpp"
#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// Makes each of these telephone numbers, wherever it stands on a page (see text::phones_in), a
/// link that rings it.
void link_phones(Paper& paper, const std::vector<std::string>& numbers, const fonts::Faces& faces);

}  // namespace gallipot::layout
