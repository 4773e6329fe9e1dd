#pragma once

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// What is known of the law in the job's region and on what the mixes' hazards rest, each with its
/// source, and lines to write down who was asked.
Sheet rules_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                  const text::Catalog& words);

}  // namespace gallipot::document
