#pragma once

#include <string>

#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"

/// What a report says of stations that were moved, changed or taken up.
namespace gallipot::document {

/// Where the station at `index` of a report is; empty where the job does not have it any more.
std::string where_in_report(const job::Job& job, std::size_t index, const text::Catalog& words);

/// Up to a day: when something at it became another, and that it was taken up for good. Empty when
/// nothing did.
std::string changes_sentence(const job::Job& job, std::size_t index, analysis::Day as_of,
                             const text::Catalog& words);

}  // namespace gallipot::document
