#pragma once

#include <vector>

#include "domain/plan/mix_planner.hpp"
#include "domain/safety/classify.hpp"

/// What things are made of, for their hazard. Not for other layers.
namespace gallipot::plan {

/// A mix by mass, each ingredient besides at the upper end of what may have been measured. Bought
/// products go in as their parts, so that the borate in them is found; what nobody knows of them is
/// a component of its own. `water_gone` is the part of its plain water that has left: 0 as mixed, 1
/// when it is dry. Water in honey or syrup stays: it hardly leaves.
std::vector<safety::Component> composition(const MixCalculation& calculation, double water_gone);

/// A supply by itself.
std::vector<safety::Component> composition(const mixing::Component& supply);

/// Of so much of a mix, what may dry up.
units::Mass plain_water_in(const MixCalculation& calculation, const Contents& contents);

/// The hazard of a mix that loses that part of its water until it is replaced: as it was mixed, or
/// as it has dried where that is more; the hazard then says so.
safety::Hazard hazard_of(const MixCalculation& calculation, double water_gone,
                         safety::RuleSet rules);

}  // namespace gallipot::plan
