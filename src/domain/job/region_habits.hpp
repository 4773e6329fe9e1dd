#pragma once

#include <string_view>

#include "domain/job/job.hpp"

namespace gallipot::job {

/// What is usual in a region (ISO 3166-1 alpha-2). An unknown one gets what most have.
Paper usual_paper(std::string_view region);
KitchenSystem usual_kitchen(std::string_view region);
/// Temperatures, lengths and areas in US units in the United States and its territories.
units::DisplayUnits usual_units(std::string_view region);

}  // namespace gallipot::job
