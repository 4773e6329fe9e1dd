#include "tracking/analysis/history.hpp"

#include <algorithm>
#include <set>

#include "tracking/analysis/rules.hpp"

namespace gallipot::analysis {

Histories::Histories(const std::vector<std::string>& stations) : of_station_(stations.size()) {
    for (std::size_t i = 0; i < stations.size(); ++i) index_.emplace(stations[i], i);
}

bool Histories::add(const visit::Visit& visit, std::int64_t entry) {
    const auto found = index_.find(visit.station);
    const bool known = found != index_.end();
    if (known)
        if (const auto last = last_day_.find(found->second);
            last != last_day_.end() && day_of(visit.time) > last->second)
            return false;
    if (!known) ++unknown_stations_[visit.station];
    Observation seen;
    seen.time = visit.time;
    seen.entry = entry;
    seen.seen = visit.seen.value_or(Observation::not_looked);
    seen.dead = visit.dead.value_or(Observation::not_looked);
    seen.level_percent =
        static_cast<std::int16_t>(visit.level_percent.value_or(Observation::not_looked));
    seen.minutes = visit.minutes.value_or(Observation::not_looked);
    seen.trap_nights = visit.trap_nights.value_or(Observation::not_looked);
    seen.container = static_cast<std::int16_t>(visit.container);
    seen.state = visit.state;
    seen.did = visit.did;
    if (visit.feeding) seen.feeding = *visit.feeding ? 1 : 0;
    History& history = known ? of_station_[found->second] : unknown_[visit.station];
    // The log hands them over in order of time; a late one is put where it belongs.
    const auto after = std::upper_bound(
        history.begin(), history.end(), seen.time,
        [](LocalTime time, const Observation& other) { return time < other.time; });
    history.insert(after, seen);
    return true;
}

void Histories::adopt(const std::string& station) {
    index_.emplace(station, of_station_.size());
    of_station_.push_back(std::move(unknown_.at(station)));
    unknown_.erase(station);
    unknown_stations_.erase(station);
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

/// Tells counts made before anything was set down from those made after.
class Before {
  public:
    Before(std::span<const Observation> history, const Counting& how) {
        if (!how.placed) return;
        limit_ = *how.placed;
        if (!how.placed_by_day) return;
        // Which hour is not known. Where nothing was counted earlier, the first count of each
        // container on that day is the one before.
        const bool earlier = std::ranges::any_of(
            history, [&](const Observation& o) { return o.counted() && o.time <= *limit_; });
        if (!earlier) day_ = day_of(*limit_);
    }

    /// To be asked in order of time.
    [[nodiscard]] bool holds(const Observation& o) {
        if (!limit_) return false;
        if (o.time <= *limit_) return true;
        return day_ && day_of(o.time) == *day_ && met_.insert(o.container).second;
    }

  private:
    std::optional<LocalTime> limit_;
    std::optional<Day> day_;
    std::set<int> met_;
};

/// What was counted for the baseline, and after it.
struct Kept {
    History before, after;
};

Kept keep(std::span<const Observation> history, const Counting& how) {
    Kept kept;
    Before before(history, how);
    for (const Observation& o : history) {
        if (!o.counted()) continue;
        if (!before.holds(o)) {
            kept.after.push_back(o);
            continue;
        }
        // Of the last day before, the last count of each container.
        std::erase_if(kept.before, [&](const Observation& other) {
            return day_of(other.time) != day_of(o.time) || other.container == o.container;
        });
        kept.before.push_back(o);
    }
    return kept;
}

/// Takes out what does not tell of the whole station; returns how many those were.
std::size_t leave_whole(History& counted) {
    const bool single = by_container(counted);
    return std::erase_if(counted,
                         [&](const Observation& o) { return (o.container == 0) == single; });
}

/// The unit that most counts are in; of as many, that of the first.
ExposureUnit main_unit(const Kept& kept) {
    const auto number = [&](ExposureUnit unit) {
        return std::ranges::count(kept.before, unit, &Observation::exposure_unit) +
               std::ranges::count(kept.after, unit, &Observation::exposure_unit);
    };
    const History& first = kept.before.empty() ? kept.after : kept.before;
    ExposureUnit best = first.front().exposure_unit();
    for (const ExposureUnit unit :
         {ExposureUnit::none, ExposureUnit::minutes, ExposureUnit::trap_nights})
        if (number(unit) > number(best)) best = unit;
    return best;
}

/// Sums the containers of a station, round by round.
class Summed {
  public:
    /// `counted`: what will be asked about, in order of time.
    explicit Summed(const History& counted) {
        // A container first counted in a later round has a line of its own but is in no total: it
        // would look like a rise.
        for (const Observation& o : counted) {
            const bool early = days_between(counted.front().time, o.time) <= rules::same_round_days;
            if (containers_.emplace(o.container, Container{containers_.size(), early, {}}).second &&
                early)
                ++to_come_;
        }
    }

    [[nodiscard]] std::size_t containers() const { return containers_.size(); }
    [[nodiscard]] std::size_t group_of(const Observation& o) const {
        return containers_.at(o.container).group;
    }
    /// Whether `o` makes a total, of latest().
    bool completes(const Observation& o) {
        Container& container = containers_.at(o.container);
        container.latest = o;
        if (!container.in_total) return false;
        met_.insert(o.container);
        return met_.size() == to_come_;
    }
    [[nodiscard]] History latest() const {
        History all;
        for (const auto& [number, each] : containers_)
            if (each.in_total) all.push_back(each.latest);
        return all;
    }
    /// One round over several containers is one total, its last.
    [[nodiscard]] bool one_round(LocalTime before, LocalTime now) const {
        return to_come_ > 1 && day_of(before) == day_of(now);
    }

  private:
    struct Container {
        std::size_t group = 0;
        bool in_total = false;
        Observation latest;
    };
    std::map<int, Container> containers_;
    std::set<int> met_;
    std::size_t to_come_ = 0;
};

/// Makes groups and totals, every exposure against that of the first count.
class Adder {
  public:
    Adder(Counts& counts, bool by_exposure, const Observation& first)
        : counts_(counts), by_exposure_(by_exposure) {
        counts_.start = first.time;
        counts_.exposure = exposure(first);
    }

    /// The first `before` of them are the baseline, whose total no later one takes the place of.
    void add(const History& counted, std::size_t before) {
        Summed summed(counted);
        const std::size_t from = counts_.groups.size();
        counts_.groups.resize(from + summed.containers());
        std::size_t settled = counts_.totals.size();
        for (std::size_t i = 0; i < counted.size(); ++i) {
            const Observation& o = counted[i];
            if (i == before) settled = counts_.totals.size();
            counts_.groups[from + summed.group_of(o)].push_back(
                {days_between(counts_.start, o.time), static_cast<double>(o.seen),
                 exposure(o) / counts_.exposure});
            if (exposure(o) != counts_.exposure) counts_.exposures_differ = true;
            if (!summed.completes(o)) continue;
            if (counts_.totals.size() > settled &&
                summed.one_round(counts_.totals.back().time, o.time))
                counts_.totals.pop_back();
            counts_.totals.push_back(total(o.time, summed.latest()));
            if (i < before) counts_.baseline = true;
        }
    }

    /// One group of the totals alone.
    void join_groups() {
        std::vector<Count> group;
        for (const Total& total : counts_.totals)
            group.push_back(
                {days_between(counts_.start, total.time), total.counted(), 1 / total.scale});
        counts_.groups = {std::move(group)};
    }

  private:
    [[nodiscard]] double exposure(const Observation& o) const {
        return by_exposure_ ? o.exposure() : 1;
    }
    [[nodiscard]] Total total(LocalTime time, const History& latest) const {
        Pool pool;
        for (const Observation& each : latest)
            pool.add({time, each.seen * counts_.exposure / exposure(each),
                      counts_.exposure / exposure(each)});
        return pool.total(time);
    }

    Counts& counts_;
    bool by_exposure_;
};

/// Follows all counts, whatever they are put against, to see when none was seen last.
class NoneFinder {
  public:
    explicit NoneFinder(Counts& counts) : counts_(counts), none_(counts.none_seen) {}

    void add(const History& counted) {
        Summed summed(counted);
        for (const Observation& o : counted) {
            if (o.seen > 0) counts_.any_seen = true;
            if (summed.completes(o)) add(o.time, summed.latest());
        }
    }

  private:
    void add(LocalTime time, const History& latest) {
        if (std::ranges::any_of(latest, [](const Observation& o) { return o.seen > 0; })) {
            none_ = {};
            trap_round_.reset();
            return;
        }
        const Day day = day_of(time);
        if (!none_.since) none_.since = time;
        if (none_.rounds == 0 || day != day_of(none_.last)) ++none_.rounds;
        none_.last = time;
        if (trap_round_ == day || !std::ranges::all_of(latest, &Observation::trapped)) return;
        trap_round_ = day;
        ++none_.trap_rounds;
    }

    Counts& counts_;
    NoneSeen& none_;
    std::optional<Day> trap_round_;
};

}  // namespace

void Pool::add(const Total& total) {
    seen_ += total.seen;
    weighted_ += total.seen * total.scale;
    scales_ += total.scale;
    ++number_;
}

Total Pool::total(LocalTime time) const {
    if (number_ == 0) return {time, 0, 1};
    // Of n counts with scales w the sum of w n has the variance sum of w^2 n.
    return {time, seen_, seen_ > 0 ? weighted_ / seen_ : scales_ / static_cast<double>(number_)};
}

Counts counts_of(std::span<const Observation> history, const Counting& how) {
    Kept kept = keep(history, how);
    Counts counts;
    counts.all = kept.before.size() + kept.after.size();
    if (counts.all == 0) return counts;
    counts.not_alike = leave_whole(kept.before) + leave_whole(kept.after);
    NoneFinder finder(counts);
    finder.add(kept.before);
    finder.add(kept.after);
    if (how.by_exposure) {
        counts.unit = how.unit.value_or(main_unit(kept));
        for (History* part : {&kept.before, &kept.after})
            counts.not_alike += std::erase_if(
                *part, [&](const Observation& o) { return o.exposure_unit() != counts.unit; });
    }
    if (kept.before.empty() && kept.after.empty()) return counts;
    Adder adder(counts, how.by_exposure, (kept.before.empty() ? kept.after : kept.before).front());
    const bool one_way = kept.before.empty() || kept.after.empty() ||
                         by_container(kept.before) == by_container(kept.after);
    if (one_way) {
        const std::size_t before = kept.before.size();
        kept.before.insert(kept.before.end(), kept.after.begin(), kept.after.end());
        adder.add(kept.before, before);
    } else {
        // Before anything stands there, the station is mostly counted as a whole.
        adder.add(kept.before, kept.before.size());
        adder.add(kept.after, 0);
        adder.join_groups();
    }
    return counts;
}

}  // namespace gallipot::analysis
