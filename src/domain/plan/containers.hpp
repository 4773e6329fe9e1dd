#pragma once

#include <map>
#include <string>
#include <vector>

#include "domain/plan/mix_planner.hpp"

/// Everything that gets a label. Not for other layers.
namespace gallipot::plan {

/// The containers of a job whose stations are planned, in the order of their labels: every cup of
/// every station, then for every mix the vessel it is made in and its leftovers, then every supply
/// that is taken out of its packet and is hazardous, holds boron, or is of unknown hazard. `worked`
/// holds the mixes by id, and `plan` their stations.
std::vector<Container> containers(const job::Job& job, const Plan& plan,
                                  const std::vector<MixCalculation>& calculation);

/// By mix, the most severe hazard that it has in any of its containers.
std::map<std::string, std::shared_ptr<const safety::Hazard>> worst_hazards(
    const std::vector<Container>& containers);

}  // namespace gallipot::plan
