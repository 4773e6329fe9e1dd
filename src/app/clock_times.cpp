#include "app/clock_times.hpp"

#include <fmt/format.h>

namespace gallipot::app {
namespace {

void check(const diag::At<job::LocalTime>& time, const log::Zone& zone, diag::Diagnostics& out) {
    switch (zone.shown(*time)) {
        case log::Zone::Shown::once:
            return;
        case log::Zone::Shown::never:
            out.warning("time-skipped", time.place,
                        diag::say("no clock in {} shows {}: they go forward past it", zone.name(),
                                  log::print_time(*time)),
                        diag::say("write {}", log::print_time(zone.instead_of(*time))));
            return;
        case log::Zone::Shown::twice:
            out.warning("time-shown-twice", time.place,
                        diag::say("clocks in {} show {} twice, as they go back; the dates that "
                                  "follow from it may be an hour off",
                                  zone.name(), log::print_time(*time)),
                        "if that matters, write a time outside that hour");
    }
}

}  // namespace

void check_clock_times(Session& session, const log::Zone& zone) {
    for (const job::Station& station : session.job->stations) {
        if (station.placed && !station.placed_by_day) check(*station.placed, zone, session.found);
        for (const job::Change& change : station.changes)
            if (!change.on_by_day) check(change.on, zone, session.found);
    }
}

}  // namespace gallipot::app
