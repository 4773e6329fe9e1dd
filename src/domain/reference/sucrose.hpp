#pragma once

#include <span>

#include "base/units/quantity.hpp"
#include "domain/reference/cited.hpp"

/// How much room sugar takes up in water. Not a constant: it rises from 0.616 to 0.628 mL/g between
/// 0 and 60 %, and a constant would put a thick syrup off by more than half a percent.
namespace gallipot::reference {

/// Density of a solution of sucrose in water at 20 C.
struct SucrosePoint {
    units::Share sucrose;  ///< by mass
    Cited<units::Density> density;
};
std::span<const SucrosePoint> sucrose_densities();

/// Volume that one gram of sucrose adds to the water it is dissolved in, at 20 C, in a solution
/// that holds this share of it by mass: v = (1/density - (1 - share)/density of water)/share.
/// Straight lines between the table's points, the last one carried on to the saturated solution (67
/// %).
units::SpecificVolume sucrose_volume_in_solution(units::Share sucrose);

}  // namespace gallipot::reference
