#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "tracking/analysis/days.hpp"
#include "tracking/analysis/decline.hpp"
#include "tracking/visit/visit.hpp"

/// The visits as the analysis keeps them: numbers without words, so that a million take 40 MB.
namespace gallipot::analysis {

/// What says how much looking went into a count. Only counts that say the same are compared.
enum class ExposureUnit : std::uint8_t {
    none,        ///< nothing was noted: each count is taken as one look like the others
    minutes,     ///< of counting
    trap_nights  ///< traps times the nights they were out
};

struct Observation {
    static constexpr std::int32_t not_looked = -1;

    LocalTime time;
    std::int64_t entry = 0;  ///< its number in the log; 0 where it has none
    std::int32_t seen = not_looked;
    std::int32_t dead = not_looked;
    std::int32_t minutes = not_looked;
    std::int32_t trap_nights = not_looked;
    std::int16_t level_percent = not_looked;
    std::int16_t container = 0;  ///< from 1; 0: the station as a whole
    visit::Marks<visit::State> state;
    visit::Marks<visit::Did> did;
    std::int8_t feeding = not_looked;  ///< 1: some fed on the bait; 0: none did

    [[nodiscard]] bool counted() const { return seen >= 0; }
    [[nodiscard]] bool level_read() const { return level_percent >= 0; }
    [[nodiscard]] bool trapped() const { return trap_nights > 0; }
    /// A catch is by trap nights, whatever emptying the traps took.
    [[nodiscard]] ExposureUnit exposure_unit() const {
        if (trapped()) return ExposureUnit::trap_nights;
        return minutes > 0 ? ExposureUnit::minutes : ExposureUnit::none;
    }
    /// In that unit; 1 where nothing was noted.
    [[nodiscard]] double exposure() const {
        if (trapped()) return trap_nights;
        return minutes > 0 ? minutes : 1;
    }
};

using History = std::vector<Observation>;

/// Entries of the log that count for nothing, by number; told with the report.
struct LeftOut {
    std::vector<std::int64_t> impossible;  ///< made at a time at which they cannot have been
    std::vector<std::int64_t> unreadable;  ///< damaged
    std::vector<std::int64_t> after_end;   ///< made after their station was taken up for good
};

/// Everybody's visits sorted by station.
class Histories {
  public:
    /// `stations`: the job's ids, in its order.
    explicit Histories(const std::vector<std::string>& stations);

    /// What is added later than `last` to the station at `index` counts for nothing.
    void end(std::size_t index, Day last) { last_day_[index] = last; }
    /// False for what counts for nothing because its station was taken up before.
    bool add(const visit::Visit& visit, std::int64_t entry = 0);
    /// Takes an unknown station in behind the others, with what was added.
    void adopt(const std::string& station);
    /// What was added of an unknown station, in order of time.
    [[nodiscard]] const History& of_unknown(const std::string& station) const {
        return unknown_.at(station);
    }
    /// Of the station at `index`, in order of time (at the same minute: in order of adding), none
    /// later than `last`. Good until the next add().
    [[nodiscard]] std::span<const Observation> until(std::size_t index, Day last) const;
    /// Visits to stations that the job does not have (any more), by the id they were logged under.
    [[nodiscard]] const std::map<std::string, std::size_t>& unknown_stations() const {
        return unknown_stations_;
    }
    void leave_out_impossible(std::int64_t entry) { left_out_.impossible.push_back(entry); }
    void leave_out_after_end(std::int64_t entry) { left_out_.after_end.push_back(entry); }
    void leave_out_unreadable(std::int64_t entry) { left_out_.unreadable.push_back(entry); }
    [[nodiscard]] const LeftOut& left_out() const { return left_out_; }

  private:
    std::unordered_map<std::string, std::size_t> index_;
    std::vector<History> of_station_;
    std::unordered_map<std::size_t, Day> last_day_;
    std::map<std::string, std::size_t> unknown_stations_;
    std::map<std::string, History> unknown_;
    LeftOut left_out_;
};

/// How many live pests there were at the station as a whole at one time.
struct Total {
    LocalTime time;
    double seen = 0;   ///< as many as with the exposure of the first count
    double scale = 1;  ///< for how many of `seen` each pest that was counted stands

    [[nodiscard]] double counted() const { return seen / scale; }
};

/// Sums totals of several containers or stations.
class Pool {
  public:
    void add(const Total& total);
    /// Their sum, with the scale that gives it the variance of such a sum of Poisson counts.
    [[nodiscard]] Total total(LocalTime time) const;
    [[nodiscard]] std::size_t number() const { return number_; }

  private:
    double seen_ = 0, weighted_ = 0, scales_ = 0;
    std::size_t number_ = 0;
};

/// The counts of none that all counts of a history end with, however they were made: a count of
/// none is one with any exposure.
struct NoneSeen {
    std::optional<LocalTime> since;  ///< the first of them; none when pests were seen last
    LocalTime last{};                ///< the last of them
    int rounds = 0;                  ///< days with a count of none
    int trap_rounds = 0;             ///< of those, with traps
};

/// The counts of a history that can be compared. Where containers are counted one by one each is a
/// group of its own, and a total is the sum of each one's latest count, from the time on when every
/// one has been counted.
struct Counts {
    std::vector<std::vector<Count>> groups;  ///< days since `start`, exposures in first ones
    std::vector<Total> totals;               ///< in order of time
    LocalTime start{};                       ///< of the first count; day 0 of the groups
    bool baseline = false;  ///< totals.front() was counted before anything was set down
    ExposureUnit unit = ExposureUnit::none;
    double exposure = 1;            ///< of the first count, in `unit`
    bool exposures_differ = false;  ///< another count had another one
    std::size_t all = 0;            ///< visits from the baseline on that counted, in any unit
    std::size_t not_alike = 0;      ///< of those, left out for another unit
    bool any_seen = false;          ///< at any of them
    NoneSeen none_seen;

    [[nodiscard]] bool empty() const { return totals.empty(); }
};

/// How a history's counts are to be taken.
struct Counting {
    std::optional<LocalTime> placed = {};
    bool placed_by_day = false;  ///< `placed` stands for that day, of which no hour is known
    bool by_exposure = true;     ///< not so of holes in a marked square: they are there or not
    /// Only counts in this unit; none: in the one that most are in, of as many the first one's.
    std::optional<ExposureUnit> unit = {};
};

/// What was counted before anything was set down is kept apart: of that, only the last count (of
/// each container on that day) is taken, as the baseline, and what came after is compared with it.
/// Without one, the first count there is.
Counts counts_of(std::span<const Observation> history, const Counting& how);

}  // namespace gallipot::analysis
