#include "cli/rounds_json.hpp"

#include <chrono>
#include <fmt/format.h>

#include "base/strings/dates.hpp"
#include "domain/plan/rounds.hpp"

namespace gallipot::cli {

Json rounds_json(const plan::Plan& plan) {
    Json all = Json::array();
    for (const plan::Round& round : plan::rounds(plan)) {
        Json stops = Json::array();
        for (const plan::Due& due : round.stops)
            stops.push_back(
                {{"station", plan.stations.at(due.station).id}, {"due", iso(due.time)}});
        all.push_back({{"on", iso(job::Date{std::chrono::floor<std::chrono::days>(round.time)})},
                       {"time", iso(round.time)},
                       {"stops", std::move(stops)}});
    }
    return all;
}

std::string iso(job::Date date) {
    return strings::iso_date(date);
}

std::string iso(job::LocalTime time) {
    const auto day = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::hh_mm_ss clock{time - day};
    return fmt::format("{}T{:02}:{:02}", iso(job::Date{day}), clock.hours().count(),
                       clock.minutes().count());
}

}  // namespace gallipot::cli
