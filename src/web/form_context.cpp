#include "web/form_context.hpp"

#include "base/system/error.hpp"
#include "web/counting.hpp"

namespace gallipot::web {
namespace {

Levels levels_of(const analysis::StationReport& report) {
    Levels levels;
    for (const analysis::ContainerState& container : report.containers) {
        if (container.taken_up) continue;
        if (!container.standing() || !container.open.empty() || !container.level_percent) return {};
        levels[container.number] = *container.level_percent;
    }
    return levels;
}

}  // namespace

Levels level_now(const Context& context, const Place& place) {
    if (before_placing(context, place)) return {};
    try {
        return levels_of(context.evidence_now()->report.stations.at(place.index));
    } catch (const system::SystemError&) {
        return {};
    }
}

Before before_form(const Context& context, const Place& place, const FormData& data,
                   const std::optional<log::Entry>& old) {
    Before before;
    before.old = old;
    if (!data.token.empty()) before.recorded = context.log.find_form(data.token);
    for (const log::Entry& entry : context.log.last(place.planned.id, StationState::visits_kept)) {
        const bool own = (old && entry.number == old->number) ||
                         (before.recorded && entry.number == before.recorded->number);
        if (!entry.visit.seen || own) continue;
        before.seen = entry.visit.seen;
        break;
    }
    if (!before_placing(context, place))
        before.levels = levels_of(context.evidence_now()->report.stations.at(place.index));
    return before;
}

}  // namespace gallipot::web
