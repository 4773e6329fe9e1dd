#pragma once

#include <string>
#include <vector>

#include "papers/fonts/fonts.hpp"
#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// "tel:" and the digits of a number as people write it, with the plus of one from abroad.
std::string phone_link(const std::string& number);

/// Makes each of these telephone numbers, wherever it stands on a page on one line, a link that
/// rings it. What only has the same digits inside a longer number is none.
void link_phones(Paper& paper, const std::vector<std::string>& numbers, const fonts::Faces& faces);

}  // namespace gallipot::layout
