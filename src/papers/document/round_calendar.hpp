#pragma once

#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/rounds.hpp"

namespace gallipot::document {

/// The next rounds as an iCalendar file (RFC 5545): an event of the whole day for each, with its
/// stations in walking order and what is to be done there. The first keeps its UID from report to
/// report, and so do the others: importing a later one moves them. Empty when there is no round.
std::string rounds_calendar(const job::Job& job, const analysis::Report& report,
                            const std::vector<analysis::Round>& walks, const text::Catalog& words);

}  // namespace gallipot::document
