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

/// The visits as the analysis keeps them: numbers without words, so that a million take 32 MB.
namespace gallipot::analysis {

struct Observation {
    static constexpr std::int32_t not_looked = -1;

    LocalTime time;
    std::int32_t seen = not_looked;
    std::int32_t dead = not_looked;
    std::int16_t level_percent = not_looked;
    std::int16_t container = 0;  ///< from 1; 0: the station as a whole
    visit::Marks<visit::State> state;
    visit::Marks<visit::Did> did;
    std::int8_t feeding = not_looked;  ///< 1: some fed on the bait; 0: none did

    [[nodiscard]] bool counted() const { return seen >= 0; }
    [[nodiscard]] bool level_read() const { return level_percent >= 0; }
};

using History = std::vector<Observation>;

/// Entries of the log that count for nothing, by number; told with the report.
struct LeftOut {
    std::vector<std::int64_t> impossible;  ///< made at a time at which they cannot have been
    std::vector<std::int64_t> unreadable;  ///< damaged
};

/// Everybody's visits sorted by station.
class Histories {
  public:
    /// `stations`: the job's ids, in its order.
    explicit Histories(const std::vector<std::string>& stations);

    void add(const visit::Visit& visit);
    /// Of the station at `index`, in order of time (at the same minute: in order of adding), none
    /// later than `last`. Good until the next add().
    [[nodiscard]] std::span<const Observation> until(std::size_t index, Day last) const;
    /// Visits to stations that the job does not have (any more), by the id they were logged under.
    [[nodiscard]] const std::map<std::string, std::size_t>& strangers() const { return strangers_; }
    void leave_out_impossible(std::int64_t entry) { left_out_.impossible.push_back(entry); }
    void leave_out_unreadable(std::int64_t entry) { left_out_.unreadable.push_back(entry); }
    [[nodiscard]] const LeftOut& left_out() const { return left_out_; }

  private:
    std::unordered_map<std::string, std::size_t> index_;
    std::vector<History> of_station_;
    std::map<std::string, std::size_t> strangers_;
    LeftOut left_out_;
};

/// How many live pests there were at the station as a whole at one time.
struct Total {
    LocalTime time;
    double seen = 0;
};

/// The counts of a history. Where containers are counted one by one each is a group of its own, and
/// a total is the sum of each one's latest count, from the time on when every one has been counted.
struct Counts {
    std::vector<std::vector<Count>> groups;  ///< days since `start`
    std::vector<Total> totals;               ///< in order of time
    LocalTime start{};                       ///< of the first count; day 0 of the groups

    [[nodiscard]] bool empty() const { return totals.empty(); }
};

/// Counts from the day of the last one made by the time of `placed` (so that the first is the one
/// the bait starts from), or from the first when there is none.
Counts counts_of(std::span<const Observation> history, std::optional<LocalTime> placed);

}  // namespace gallipot::analysis
