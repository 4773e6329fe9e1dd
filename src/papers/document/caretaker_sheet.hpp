#pragma once

#include <string>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// Whether a station has containers that hold a borate.
bool states_doses(const plan::Plan& plan);

/// For whoever looks after the stations, and nobody else: what is in one container at each level,
/// for when somebody has eaten from it. Where there is a log on the web, the code and the link to
/// its page of all stations come first, and last what keeps it; `link` is the overview's, with its
/// key, else empty.
Sheet caretaker_sheet(const job::Job& job, const plan::Plan& plan, const std::string& link,
                      const text::Catalog& words);

}  // namespace gallipot::document
