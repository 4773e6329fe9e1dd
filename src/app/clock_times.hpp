#pragma once

#include "app/session.hpp"
#include "tracking/log/zone.hpp"

namespace gallipot::app {

/// Warns of times in the job that the clocks of its zone never show, or show twice.
void check_clock_times(Session& session, const log::Zone& zone);

}  // namespace gallipot::app
