#pragma once

#include <vector>

#include "document/label.hpp"
#include "job/job.hpp"
#include "plan/plan.hpp"
#include "safety/who_to_call.hpp"

namespace gallipot::document {

/// The labels of a job in its order: one for every container, then for every mix one for the bottle
/// it is mixed in and one for what is left, then one for every borate that is filled over into
/// another jar. `plan` is the job's. Strengths and grams are those as measured.
///
/// `languages` is not empty; the first is the main one. Labels say everything in the first two,
/// and carry the same in the main one alone for where there is no room for both.
Labels make_labels(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                   const std::vector<const text::Catalog*>& languages);

}  // namespace gallipot::document
