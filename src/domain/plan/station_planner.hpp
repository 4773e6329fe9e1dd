#pragma once

#include <map>
#include <optional>
#include <string>
#include <tuple>

#include "domain/plan/mix_planner.hpp"
#include "domain/plan/planner.hpp"
#include "domain/schedule/schedule.hpp"

/// Stations: what they take, hold and lose, and when they are due. Not for other layers.
namespace gallipot::plan {

/// What the stations take of every mix they name, by the mix's id. A surface to be covered with
/// what cannot be spread is an error at its place.
std::map<std::string, Demand> demands(const job::Job& job, diag::Diagnostics& out);

/// What is in so much of a finished mix, as measured.
Contents contents_of(const MixCalculation& calculation, units::Volume fill);

/// How each mix dries in each container at each temperature, worked out once.
using KnownDrifts =
    std::map<std::tuple<std::string, std::string, double>, std::optional<Evaporation>>;

/// One station. `worked` is null for a control and where the mix could not be worked out.
Station plan_station(const schedule::Starts& starts, const job::Station& station,
                     const job::Mix* mix, const MixCalculation* calculation, const LinkMaker& link,
                     KnownDrifts& evaporations, diag::Diagnostics& out);

/// Warnings of how baits keep where they stand: crystals in the cold, drying out. One for each mix
/// and container, at the first station concerned.
void check_keeping(const job::Job& job, const Plan& plan,
                   const std::map<std::string, const MixCalculation*>& calculation,
                   diag::Diagnostics& out);

}  // namespace gallipot::plan
