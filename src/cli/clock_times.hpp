#pragma once

#include "cli/session.hpp"
#include "tracking/log/zone.hpp"

namespace gallipot::command {

/// Warns of times in the job that the clocks of its zone never show, or show twice.
void check_clock_times(Session& session, const log::Zone& zone);

}  // namespace gallipot::command
