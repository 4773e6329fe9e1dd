#pragma once

#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"

namespace gallipot::document {

/// One page to hang up beside the household sheet, for who reads little or another language: what
/// not to do and whom to call as large pictures, a few words of each language beside them, and
/// where everything stands. The first language is the main one; there is at least one.
Sheet household_pictures(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                         const std::vector<const text::Catalog*>& languages);

}  // namespace gallipot::document
