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

/// Beetles come out from April to July north of the equator, so a look in August finds the holes of
/// the year; south of it half a year later. Where there are no such seasons, a year after treating.
std::chrono::month after_flying(std::string_view region, Date treated) {
    const auto july = reference::season_of(7, region);
    if (!july) return treated.month();
    return *july == reference::Season::summer ? std::chrono::August : std::chrono::February;
}

/// Three months after the treatment, and after each of three flying seasons.
std::vector<LocalTime> wood_visits(LocalTime start, std::string_view region) {
    constexpr int seasons = 3;
    constexpr Duration three_months = units::days(91);
    std::vector<LocalTime> visits;
    const auto first = after(start, three_months);
    if (!first) return visits;
    visits.push_back(*first);
    const Date treated = day_of(start);
    const std::chrono::month month = after_flying(region, treated);
    const bool same_day = month == treated.month() && !reference::season_of(7, region);
    const std::chrono::day day =
        same_day ? std::min(treated.day(), std::chrono::day(28)) : std::chrono::day(1);
    const auto time_of_day = start - std::chrono::floor<days>(start);
    for (std::chrono::year year = treated.year(); std::ssize(visits) <= seasons; ++year) {
        if (year > std::chrono::year{9998}) break;
        const LocalTime visit = std::chrono::local_days{year / month / day} + time_of_day;
        if (visit > *first) visits.push_back(visit);
    }
    return visits;
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
    const bool own_visits = station.visits || (mix != nullptr && mix->visits);
    if (pest != nullptr && pest->lives_in_wood && station.sprayed() && !own_visits) {
        times.visits = wood_visits(start, *job.help.region);
        return times;
    }
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
