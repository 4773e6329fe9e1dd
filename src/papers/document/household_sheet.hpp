#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/document/household_where.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// The sheet to hang up for everybody in the building, in plain words. On the front what saves a
/// life and where it stands; then what it looks like, what to do and not to do, and for a poison
/// centre what is in one container. `plan` is the job's. With a `home` the sheet is for that flat
/// or floor: its own stations come first. `link` is
/// the sheet's own page at the log, for a code beside the title; empty where there is none.
Sheet household_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                      const text::Catalog& words, const Home* home = nullptr,
                      const std::string& link = {});

}  // namespace gallipot::document
