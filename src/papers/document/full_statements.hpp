#pragma once

#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"

namespace gallipot::document {

/// The published statements of these mixes, whole, with their codes: labels leave out what they
/// have no room for. A paragraph for each signal word; what all its mixes say stands there once,
/// then what some say besides. The mixes are the job's.
std::vector<Paragraph> full_statements(const job::Job& job,
                                       const std::vector<const plan::Mix*>& mixes,
                                       const text::Catalog& words);

}  // namespace gallipot::document
