#pragma once

#include <string>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::calendar {

/// The planned visits as an iCalendar file (RFC 5545): one event a round of plan::rounds(), with its
/// stations in walking order and five minutes for each (common practice, no source), and one for
/// the count before each round of setting out. Times are those of the job's time zone with its rules, else floating:
/// local wherever the calendar is opened.
///
/// The same job gives the same bytes: stamps are the day of preparation, and an event keeps its
/// UID while the job keeps its title and preparation day, so that importing anew replaces it.
/// Empty when nothing is due.
std::string visits(const job::Job& job, const plan::Plan& plan, const text::Catalog& words);

/// Sixteen hexadecimal digits that tell jobs apart in UIDs: of its title and preparation day.
std::string identity(const job::Job& job);

}  // namespace gallipot::calendar
