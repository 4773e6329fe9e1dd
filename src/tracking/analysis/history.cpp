#include "tracking/analysis/history.hpp"

#include <algorithm>
#include <set>

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

Histories::Histories(const std::vector<std::string>& stations) : of_station_(stations.size()) {
    for (std::size_t i = 0; i < stations.size(); ++i) index_.emplace(stations[i], i);
}

void Histories::add(const visit::Visit& visit) {
    const auto found = index_.find(visit.station);
    if (found == index_.end()) {
        ++strangers_[visit.station];
        return;
    }
    Observation seen;
    seen.time = visit.time;
    seen.seen = visit.seen.value_or(Observation::not_looked);
    seen.dead = visit.dead.value_or(Observation::not_looked);
    seen.level_percent =
        static_cast<std::int16_t>(visit.level_percent.value_or(Observation::not_looked));
    seen.container = static_cast<std::int16_t>(visit.container);
    seen.state = visit.state;
    seen.did = visit.did;
    if (visit.feeding) seen.feeding = *visit.feeding ? 1 : 0;
    History& history = of_station_[found->second];
    // The log hands them over in order of time; a late one is put where it belongs.
    const auto after = std::upper_bound(
        history.begin(), history.end(), seen.time,
        [](LocalTime time, const Observation& other) { return time < other.time; });
    history.insert(after, seen);
}

std::span<const Observation> Histories::until(std::size_t index, Day last) const {
    const History& history = of_station_[index];
    const LocalTime end = last + std::chrono::days(1);
    const auto past =
        std::lower_bound(history.begin(), history.end(), end,
                         [](const Observation& o, LocalTime time) { return o.time < time; });
    return {history.begin(), past};
}

namespace {

/// The counts that tell of the whole station: those of it as a whole, unless most were made
/// container by container.
bool by_container(std::span<const Observation> counted) {
    const auto whole =
        std::ranges::count_if(counted, [](const Observation& o) { return o.container == 0; });
    return 2 * whole < std::ssize(counted);
}

}  // namespace

Counts counts_of(std::span<const Observation> history, std::optional<LocalTime> placed) {
    Day start = Day::min();
    for (const Observation& o : history)
        if (o.counted() && placed && o.time <= *placed) start = day_of(o.time);
    History counted;
    for (const Observation& o : history)
        if (o.counted() && day_of(o.time) >= start) counted.push_back(o);
    const bool single = by_container(counted);
    std::erase_if(counted, [&](const Observation& o) { return (o.container == 0) == single; });

    Counts counts;
    if (counted.empty()) return counts;
    counts.start = counted.front().time;

    // A container first counted in a later round has a line of its own but is in no total: it would
    // look like a rise.
    struct Container {
        std::size_t group = 0;
        bool in_total = false;
        double latest = 0;
    };
    std::map<int, Container> containers;
    std::size_t to_come = 0;
    for (const Observation& o : counted) {
        const bool early = days_between(counts.start, o.time) <= rules::same_round_days;
        if (containers.emplace(o.container, Container{containers.size(), early, 0}).second && early)
            ++to_come;
    }
    counts.groups.resize(containers.size());
    std::set<int> met;
    for (const Observation& o : counted) {
        Container& container = containers.at(o.container);
        counts.groups[container.group].push_back(
            {days_between(counts.start, o.time), static_cast<double>(o.seen)});
        container.latest = o.seen;
        if (!container.in_total) continue;
        met.insert(o.container);
        if (met.size() < to_come) continue;
        double sum = 0;
        for (const auto& [number, each] : containers)
            if (each.in_total) sum += each.latest;
        // One round over several containers is one total, its last.
        if (to_come > 1 && !counts.totals.empty() &&
            day_of(counts.totals.back().time) == day_of(o.time))
            counts.totals.back() = {o.time, sum};
        else
            counts.totals.push_back({o.time, sum});
    }
    return counts;
}

}  // namespace gallipot::analysis
