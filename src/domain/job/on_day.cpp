#include "domain/job/on_day.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <set>

namespace gallipot::job {

namespace {

Date day_of(LocalTime time) {
    return Date{std::chrono::floor<std::chrono::days>(time)};
}

/// The station as the file has it.
const Station& written(const Station& station) {
    return station.written ? *station.written : station;
}

template <class T>
bool is_another(const std::optional<At<T>>& before, const std::optional<At<T>>& after) {
    return after && (!before || !(**before == **after));
}

Station station_on(const Station& station, Date day) {
    Station result = station;
    if (station.changes.empty()) return result;
    result.written = std::make_shared<const Station>(station);
    for (const Change& change : station.changes)
        if (day_of(*change.on) <= day) apply(change, result);
    return result;
}

/// What one station had, has or will have.
struct Used {
    std::set<std::string> mixes, containers;

    void add(const std::optional<At<std::string>>& mix,
             const std::optional<At<std::string>>& container) {
        if (mix) mixes.insert(**mix);
        if (container) containers.insert(**container);
    }
};

/// Moves what is used at another time, and not now, from `all` to `idle`.
template <class T>
void set_aside(std::vector<T>& all, std::vector<T>& idle, const std::set<std::string>& ever,
               const std::set<std::string>& now) {
    std::vector<T> kept;
    for (T& one : all)
        (ever.contains(one.id) && !now.contains(one.id) ? idle : kept).push_back(std::move(one));
    all = std::move(kept);
}

/// Where all that stands of a mix came with changes, it was mixed for the first of them.
void date_mixes(Job& job) {
    std::map<std::string, std::optional<Date>> made;
    for (const Station& station : job.stations) {
        if (!station.mix) continue;
        const Date day =
            station.filled ? std::max(day_of(*station.filled), *job.prepared) : *job.prepared;
        std::optional<Date>& first = made[**station.mix];
        first = std::min(first.value_or(day), day);
    }
    for (Mix& mix : job.mixes) {
        const auto day = made.find(mix.id);
        if (day != made.end() && *day->second != *job.prepared) mix.made = day->second;
    }
}

/// Where a place has the same words, what else tells it apart.
std::string spot(const Station& station, bool with_floor, bool with_point,
                 std::string_view language) {
    std::string text = station.where(language);
    if (with_floor && station.floor) text += fmt::format(", {}", **station.floor);
    if (with_point && station.at)
        text += fmt::format(" ({:.3g} m, {:.3g} m)", units::in_m((*station.at)->x),
                            units::in_m((*station.at)->y));
    return text;
}

std::string text_of(const std::optional<At<std::string>>& id) {
    return id ? **id : std::string();
}

}  // namespace

void apply(const Change& change, Station& station) {
    if (is_another(station.mix, change.mix) || is_another(station.container, change.container))
        station.filled = *change.on;
    if (change.place) station.place = *change.place;
    if (change.room) station.room = change.room;
    if (change.unit) station.unit = change.unit;
    if (change.floor) station.floor = change.floor;
    if (change.at) station.at = change.at;
    if (change.mix) station.mix = change.mix;
    if (change.container) station.container = change.container;
    if (change.count) station.count = **change.count;
}

bool changes_over_time(const Job& job) {
    return std::ranges::any_of(job.stations, [](const Station& station) {
        return !station.changes.empty() || station.until;
    });
}

std::vector<Date> days_of_change(const Job& job) {
    std::set<Date> days;
    for (const Station& station : job.stations) {
        for (const Change& change : station.changes) days.insert(day_of(*change.on));
        if (station.until) days.insert(**station.until);
    }
    return {days.begin(), days.end()};
}

Job on_day(const Job& job, Date day) {
    if (!changes_over_time(job)) return job;
    Job result = job;
    result.stations.clear();
    Used ever, now;
    for (const Station& station : job.stations) {
        ever.add(station.mix, station.container);
        for (const Change& change : station.changes) ever.add(change.mix, change.container);
        Station today = station_on(station, day);
        if (station.until && **station.until <= day) {
            result.retired.push_back(std::move(today));
        } else {
            now.add(today.mix, today.container);
            result.stations.push_back(std::move(today));
        }
    }
    set_aside(result.mixes, result.idle_mixes, ever.mixes, now.mixes);
    set_aside(result.containers, result.idle_containers, ever.containers, now.containers);
    date_mixes(result);
    return result;
}

int most_containers(const Station& station) {
    int most = written(station).count;
    for (const Change& change : station.changes)
        if (change.count) most = std::max(most, **change.count);
    return most;
}

std::string_view word(Alteration::What what) {
    constexpr std::array<std::string_view, 4> words{"place", "mix", "container", "count"};
    return words.at(static_cast<std::size_t>(what));
}

std::vector<Alteration> alterations(const Station& station, std::string_view language) {
    std::vector<Alteration> all;
    Station now = written(station);
    for (const Change& change : station.changes) {
        const Station before = now;
        apply(change, now);
        const auto add = [&](Alteration::What what, std::string from, std::string to) {
            if (from != to)
                all.push_back({*change.on, change.on_by_day, what, std::move(from), std::move(to)});
        };
        const bool same_words = before.where(language) == now.where(language);
        const bool same_floor = text_of(before.floor) == text_of(now.floor);
        add(Alteration::What::place, spot(before, same_words, same_words && same_floor, language),
            spot(now, same_words, same_words && same_floor, language));
        add(Alteration::What::mix, text_of(before.mix), text_of(now.mix));
        add(Alteration::What::container, text_of(before.container), text_of(now.container));
        add(Alteration::What::count, std::to_string(before.count), std::to_string(now.count));
    }
    return all;
}

}  // namespace gallipot::job
