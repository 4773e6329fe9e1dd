#pragma once

#include <string>

#include "domain/job/job.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// For whoever looks after the stations, and nobody else: the code and the link to the log's page
/// of all stations, and what keeps the log. `link` is the overview's, with its key.
Sheet caretaker_sheet(const job::Job& job, const std::string& link, const text::Catalog& words);

}  // namespace gallipot::document
