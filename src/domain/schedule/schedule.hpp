#pragma once

#include <optional>
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

/// When a station counts as set out: as `placed` says, else on the day of preparation at noon.
LocalTime start_of(const job::Job& job, const job::Station& station);

/// The dates of one station. Its own visits go before its mix's, those before the job's. Wood
/// sprayed against what lives in it, with no visits of its own or its mix, is looked at after three
/// months and then after each flying season for three years, and has no other dates. `mix` and
/// `pest` may be null: a control has visits and nothing else. What would fall past the year 9999
/// is an error at its place, and left out.
Times times_of(const job::Job& job, const job::Station& station, const job::Mix* mix,
               const reference::Pest* pest, diag::Diagnostics& out);

}  // namespace gallipot::schedule
