#pragma once

#include <string>
#include <vector>

#include "papers/layout/page.hpp"

/// Looks at finished pages with other eyes than those that made them; the tests run it on every
/// paper.
namespace gallipot::layout {

/// Items that lie over one another though neither is a backdrop: text over text, or text over the
/// ink of a shape. One sentence each, naming both groups and the place; empty when all is well.
std::vector<std::string> overlaps(const Page& page);

/// Items outside `allowed` (mm on the page), one sentence each.
std::vector<std::string> strays(const Page& page, const Box& allowed);

/// Text items with no group.
std::vector<std::string> unnamed(const Page& page);

}  // namespace gallipot::layout
