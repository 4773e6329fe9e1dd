#pragma once

#include "papers/text/catalog.hpp"
#include "web/context.hpp"
#include "web/html.hpp"

namespace gallipot::web {

/// The counts of live pests over time as a small drawing, with a mark below it where the bait was
/// filled up or replaced. Empty when there are fewer than two counts.
Html plot(const StationState& station_state, const text::Catalog& words);

}  // namespace gallipot::web
