#pragma once

#include "base/diag/diagnostic.hpp"
#include "domain/plan/plan.hpp"

/// Whether enough bait is set out in enough places. Not for other layers.
namespace gallipot::plan {

/// Warnings where a home or a room has less than is published: little-bait (how much liquid or
/// paste), few-baits (how many containers), rooms-without-bait; and without-unit, where flats that
/// have no `unit` are counted as one house.
void check_amounts(const job::Job& job, const Plan& plan, diag::Diagnostics& out);

}  // namespace gallipot::plan
