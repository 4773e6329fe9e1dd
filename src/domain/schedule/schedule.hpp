#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/reference/pests.hpp"

/// When things are due. All times are local, as people at the place read their clock: a visit
/// "after one day" is at the same hour on the next day, whatever summer time does between.
namespace gallipot::schedule {

using job::Date;
using job::LocalTime;

/// A local time after another, to the minute. None past the year 9999.
std::optional<LocalTime> after(LocalTime start, units::Duration time);

/// The day a local time falls on.
Date day_of(LocalTime time);

/// Noon of a day: what stands in where a time of day is not known.
LocalTime noon(Date day);

struct Times {
    std::vector<LocalTime> visits;  ///< rising, none twice
    std::optional<Date> replace_by;
    std::optional<Date> no_sprays_until;
    std::optional<Date> result_from, result_until;
};

/// From when on the stations of a job count as set out. A control of which nothing is said is
/// counted with the baits against its pest: pests keep to a time of day, and one walk does for all.
class Starts {
  public:
    /// The job must outlive it.
    explicit Starts(const job::Job& job);

    /// As `placed` says; else, of a control, with the baits it is compared to; else on the day of
    /// preparation at noon.
    [[nodiscard]] LocalTime of(const job::Station& station) const;

    /// The bait that a control goes with: the first set out against its pest, else the first of
    /// all. Null for what is no control, and without any bait.
    [[nodiscard]] const job::Station* companion(const job::Station& control) const;

    [[nodiscard]] const job::Job& job() const { return job_; }

  private:
    [[nodiscard]] LocalTime of_bait(const job::Station& station) const;

    const job::Job& job_;
    std::map<std::string, const job::Station*> first_against_;  ///< by the pest's usual name
    const job::Station* first_ = nullptr;
};

/// The dates of one station. Its own visits go before its mix's, those before the job's; a control
/// without any of its own has those of the bait it goes with. Wood sprayed against what lives in
/// it, with no visits of its own or its mix, is looked at after three months and then after each
/// flying season for three years, and has no other dates. `mix` and `pest` may be null: a control
/// has visits and nothing else. Without `no_sprays_for` there is no spraying as long as the bait
/// lasts. What would fall past the year 9999 is an error at its place, and left out.
Times times_of(const Starts& starts, const job::Station& station, const job::Mix* mix,
               const reference::Pest* pest, diag::Diagnostics& out);

}  // namespace gallipot::schedule
