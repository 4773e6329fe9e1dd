#pragma once

#include "cli/figure.hpp"
#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/hazard.hpp"

/// What a mix is, in the plan's JSON.
namespace gallipot::cli {

/// A share of one, as percent.
Json percent(double fraction);

/// How a mixture is classified, and what decided.
Json hazard_json(const safety::Hazard& hazard);

/// Amounts as asked and as measured, strength, solubility and hazard of a mix on its basis.
Json mix_json(const plan::Mix& mix, job::Basis basis);

}  // namespace gallipot::cli
