#pragma once

#include <string>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// For whoever looks after the stations, and nobody else: the code and the link to the log's page
/// of all stations, what is in one container at each level, for when somebody has eaten from it,
/// and what keeps the log. `link` is the overview's, with its key.
Sheet caretaker_sheet(const job::Job& job, const plan::Plan& plan, const std::string& link,
                      const text::Catalog& words);

}  // namespace gallipot::document
