#pragma once

#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/reference/pests.hpp"

/// What the table of pests has to say to a job. Not for other layers: they call make_plan.
namespace gallipot::plan {

/// The form of a mix as the table of pests calls it.
reference::Preparation preparation(job::Form form);

/// Whether a home-made borate mix of this form is any use against its pest. Codes:
/// no-published-support, advised-against, termite-food-bait and report-first are errors (which the
/// job may accept); several-pests, weak-support, unpublished-form and not-inspected are warnings.
void check_support(const job::Job& job, const job::Mix& mix, diag::Diagnostics& out);

/// How much of a bait stands out in all, against what is published for a house, and rooms without
/// bait where every room needs some: little-bait, few-stations, rooms-without-bait.
void check_amounts(const job::Job& job, diag::Diagnostics& out);

/// The rooms of the floor plan in which no station sets out a mix against this pest.
std::vector<const job::Room*> rooms_without(const job::Job& job, const reference::Pest& pest);

/// All that the stations set out of liquid mixes against this pest, and at how many stations.
struct LiquidSetOut {
    units::Volume volume;
    int stations = 0;
    const job::Mix* mix = nullptr;  ///< the first of them
};
LiquidSetOut liquid_set_out(const job::Job& job, const reference::Pest& pest);

}  // namespace gallipot::plan
