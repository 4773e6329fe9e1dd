#pragma once

#include <optional>

#include "log/zone.hpp"
#include "plan/plan.hpp"
#include "visit/visit.hpp"

/// When somebody should look at a station next.
namespace gallipot::log {

struct Due {
    enum class When { nothing_planned, later, now, overdue };
    When when = When::nothing_planned;
    LocalTime time{};  ///< not of nothing_planned
};

/// The first planned visit that `last` (the station's last one) does not answer. A visit answers
/// every planned one up to its own time, and one that it comes before by at most a quarter of the
/// wait since the planned visit before that. It is due from that moment, or from the morning of
/// its day, and overdue when a quarter of the wait (an hour at least) has passed after it. Taken
/// up: nothing is planned any more. Common practice, no source.
Due next_due(const plan::Station& station, const std::optional<visit::Visit>& last, LocalTime now);

/// The day by which the bait should be changed: the plan's, moved along when it was replaced.
std::optional<plan::Date> replace_by(const plan::Station& station,
                                     const std::optional<visit::Visit>& last_replaced);

}  // namespace gallipot::log
