#include "domain/schedule/schedule.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

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

/// What a pest is called, however the job writes it.
std::string usual_name(const std::string& pest) {
    const reference::Pest* known = reference::find_pest(pest);
    return known == nullptr ? pest : std::string(known->name);
}

const std::vector<diag::At<Duration>>& visits_of(const Starts& starts, const job::Station& station,
                                                 const job::Mix* mix) {
    if (station.visits) return *station.visits;
    if (const job::Station* bait = starts.companion(station))
        return visits_of(starts, *bait, starts.job().mix(**bait->mix));
    return mix != nullptr && mix->visits ? *mix->visits : starts.job().visits;
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

LocalTime Starts::of_bait(const job::Station& station) const {
    return station.placed ? **station.placed : noon(*job_.prepared);
}

Starts::Starts(const job::Job& job) : job_(job) {
    std::map<std::string, const job::Mix*> mixes;
    for (const auto* some : {&job.mixes, &job.idle_mixes})
        for (const job::Mix& mix : *some) mixes.emplace(mix.id, &mix);
    // What is taken up counts still, so that no date of a control depends on the day.
    for (std::size_t i = 0; i < job.stations.size() + job.retired.size(); ++i) {
        const job::Station& station = job.station_at(i);
        const auto mix = station.mix ? mixes.find(**station.mix) : mixes.end();
        if (station.control || mix == mixes.end()) continue;
        // What is sprayed comes after what is set out.
        const auto order = [&](const job::Station& one) {
            return std::pair(one.sprayed(), of_bait(one));
        };
        const auto keep_earlier = [&](const job::Station*& first) {
            if (first == nullptr || order(station) < order(*first)) first = &station;
        };
        keep_earlier(first_against_[usual_name(*mix->second->against)]);
        keep_earlier(first_);
    }
}

const job::Station* Starts::companion(const job::Station& control) const {
    if (!control.control) return nullptr;
    if (control.against) {
        const auto same = first_against_.find(usual_name(**control.against));
        if (same != first_against_.end()) return same->second;
    }
    return first_;
}

LocalTime Starts::of(const job::Station& station) const {
    if (!station.placed)
        if (const job::Station* bait = companion(station)) return of_bait(*bait);
    return of_bait(station);
}

Times times_of(const Starts& starts, const job::Station& station, const job::Mix* mix,
               const reference::Pest* pest, diag::Diagnostics& out) {
    const job::Job& job = starts.job();
    const LocalTime start = starts.of(station);
    Times times;
    const bool own_visits = station.visits || (mix != nullptr && mix->visits);
    if (pest != nullptr && pest->lives_in_wood && station.sprayed() && !own_visits) {
        times.visits = wood_visits(start, *job.help.region);
        return times;
    }
    for (const auto& offset : visits_of(starts, station, mix)) {
        if (const auto time = due(start, offset, out)) times.visits.push_back(*time);
    }
    std::ranges::sort(times.visits);
    times.visits.erase(std::unique(times.visits.begin(), times.visits.end()), times.visits.end());
    if (mix == nullptr) return times;

    const LocalTime filled = std::max(start, station.filled.value_or(start));
    times.replace_by = due_day(filled, mix->lasts, out);
    times.no_sprays_until =
        job.no_sprays_for ? due_day(start, job.no_sprays_for, out) : times.replace_by;
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
