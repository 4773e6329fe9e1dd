#pragma once

#include <functional>
#include <optional>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/mixing/evaporation.hpp"
#include "domain/plan/plan.hpp"

namespace gallipot::plan {

/// What a station's QR code holds. Keys and addresses are not the plan's business.
using LinkMaker = std::function<std::string(const job::Station&)>;

/// Computes everything of a job that was read without errors. What cannot be computed is an error
/// in `out` at its place in the job file, all of them in one run; the plan then lacks the mixes
/// concerned. What is lawful but unwise is a warning. `link` may be empty.
Plan make_plan(const job::Job& job, const LinkMaker& link, diag::Diagnostics& out);

/// How strong the bait of a container is now, by the level that was read (1 is as filled) after a
/// time, and how much water brings it back. None for what does not dry: no drift is known of it.
std::optional<mixing::LevelEstimate> strength_now(const Plan& plan, const Station& station,
                                                  units::Duration since_filled, double level);

}  // namespace gallipot::plan
