#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/job/reader.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/layout/labels.hpp"
#include "papers/text/catalog.hpp"

/// What the targets need beside their input, read once.
namespace gallipot::fuzz {

const std::string& project();  ///< the project's folder
const fonts::Faces& faces();
const std::vector<layout::LabelStock>& stocks();  ///< every one that is shipped
/// The shipped words of a language in a region; null for one that has none.
const text::Catalog* words(const std::string& language, const std::string& region);

struct Planned {
    job::Job job;
    safety::WhoToCall who;
    plan::Plan plan;
};
/// None, with errors in `out`, when the job cannot be done.
std::optional<Planned> plan_of(const diag::SourcePtr& source, diag::Diagnostics& out,
                               const job::OpenTable& open_table = {});
const Planned& hall();  ///< of the examples

}  // namespace gallipot::fuzz
