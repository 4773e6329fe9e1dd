#include "domain/schedule/schedule.hpp"

#include <algorithm>
#include <cmath>

namespace gallipot::schedule {

using std::chrono::days;
using std::chrono::minutes;
using units::Duration;

namespace {

constexpr LocalTime end_of_time =
    std::chrono::local_days{std::chrono::year{9999} / 12 / 31} + std::chrono::hours{24};

std::optional<LocalTime> due(LocalTime start, const diag::At<Duration>& offset,
                             diag::Diagnostics& out) {
    auto time = after(start, *offset);
    if (!time) {
        out.error("date-too-far", offset.place, "this falls after the year 9999",
                  "give a shorter time");
    }
    return time;
}

std::optional<Date> due_day(LocalTime start, const std::optional<diag::At<Duration>>& offset,
                            diag::Diagnostics& out) {
    if (!offset) return std::nullopt;
    const auto time = due(start, *offset, out);
    if (!time) return std::nullopt;
    return day_of(*time);
}

}  // namespace

std::optional<LocalTime> after(LocalTime start, Duration time) {
    const double count = std::round(time.si() / 60);
    const auto left = (end_of_time - start) / minutes{1};
    if (!(std::abs(count) < static_cast<double>(left))) return std::nullopt;
    return start + minutes{static_cast<std::int64_t>(count)};
}

Date day_of(LocalTime time) {
    return Date{std::chrono::floor<days>(time)};
}

LocalTime noon(Date day) {
    return std::chrono::local_days{day} + std::chrono::hours{12};
}

LocalTime start_of(const job::Job& job, const job::Station& station) {
    return station.placed ? **station.placed : noon(*job.prepared);
}

Times times_of(const job::Job& job, const job::Station& station, const job::Mix* mix,
               const reference::Pest* pest, diag::Diagnostics& out) {
    const LocalTime start = start_of(job, station);
    Times times;
    const auto& offsets = station.visits       ? *station.visits
                          : mix && mix->visits ? *mix->visits
                                               : job.visits;
    for (const auto& offset : offsets) {
        if (const auto time = due(start, offset, out)) times.visits.push_back(*time);
    }
    std::ranges::sort(times.visits);
    times.visits.erase(std::unique(times.visits.begin(), times.visits.end()), times.visits.end());
    if (mix == nullptr) return times;

    times.replace_by = due_day(start, mix->lasts, out);
    times.no_sprays_until = due_day(start, job.no_sprays_for, out);
    if (pest != nullptr && pest->result) {
        const auto from = after(start, pest->result->value.low);
        const auto until = after(start, pest->result->value.high);
        if (from && until) {
            times.result_from = day_of(*from);
            times.result_until = day_of(*until);
        }
    }
    return times;
}

}  // namespace gallipot::schedule
