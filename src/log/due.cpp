#include "log/due.hpp"

#include <algorithm>

namespace gallipot::log {
namespace ch = std::chrono;

Due next_due(const plan::Station& station, const std::optional<visit::Visit>& last, LocalTime now) {
    if (last && last->did.has(visit::Did::removed)) return {};
    std::optional<LocalTime> before = station.placed;
    for (const LocalTime planned : station.visits) {
        const ch::minutes wait = before ? planned - *before : ch::minutes(0);
        const ch::minutes slack = std::max(wait / 4, ch::minutes(0));
        before = planned;
        if (last && last->time >= planned - slack) continue;
        if (now > planned + std::max(slack, ch::minutes(60))) return {Due::When::overdue, planned};
        const auto from = std::min(planned - slack, LocalTime(ch::floor<ch::days>(planned)));
        return {now >= from ? Due::When::now : Due::When::later, planned};
    }
    return {};
}

std::optional<plan::Date> replace_by(const plan::Station& station,
                                     const std::optional<visit::Visit>& last_replaced) {
    if (!station.replace_by || !station.placed || !last_replaced ||
        last_replaced->time <= *station.placed)
        return station.replace_by;
    const auto lasts = ch::local_days(*station.replace_by) - ch::floor<ch::days>(*station.placed);
    return plan::Date(ch::floor<ch::days>(last_replaced->time) + lasts);
}

}  // namespace gallipot::log
