#pragma once

#include <string>
#include <vector>

#include "web/parts.hpp"

namespace gallipot::web {

/// The rooms of a floor with these stations on them, each a link to its row on the round's page.
/// Empty where the job draws no such floor or none of the stations has a point there.
Html floor_map(const Page& page, const std::string& floor,
               const std::vector<std::size_t>& stations);

}  // namespace gallipot::web
