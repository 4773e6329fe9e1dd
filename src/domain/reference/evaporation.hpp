#pragma once

#include "base/units/quantity.hpp"
#include "domain/reference/cited.hpp"

/// What is needed to estimate how fast water leaves a bait (mixing/drift.hpp).
namespace gallipot::reference::evaporation {

/// Saturation vapour pressure of water in Pa, Magnus form: base exp(slope t/(offset + t)), t in C.
struct Magnus {
    double base = 610.94, slope = 17.625, offset = 243.04;
};
inline constexpr Cited<Magnus> saturation = {
    {}, Provenance::memory, "Alduchov and Eskridge 1996, J. Appl. Meteorol. 35:601-609"};

/// Diffusion of water vapour in air in m2/s: at_0 (T/273.15)^power, T in K.
struct Diffusion {
    double at_0 = 2.178e-5, power = 1.81;
};
inline constexpr Cited<Diffusion> diffusion = {
    {}, Provenance::memory, "Massman 1998, Atmos. Environ. 32:1111-1127"};

/// Heat to evaporate water in J/kg: at_0 + per_degree t, t in C.
struct LatentHeat {
    double at_0 = 2.501e6, per_degree = -2361;
};
inline constexpr Cited<LatentHeat> latent_heat = {
    {}, Provenance::memory, "handbooks of meteorology"};

/// Open water in air that does not move: mass per area and time is this times the difference of
/// vapour pressures over the latent heat, in W/(m2 Pa). 95 Btu/(h ft2 inHg).
inline constexpr Cited<double> carrier = {
    95 * 3.154591 / 3386.389, Provenance::found,
    "Carrier 1918 as given by Smith, Loef and Jones 1998, ASHRAE Trans. 104(1A), no. 4146"};
/// Undisturbed water lost this part of what that equation gives.
inline constexpr Cited<double> undisturbed = {
    0.74, Provenance::found,
    "Smith, Loef and Jones 1998, ASHRAE Trans. 104(1A), no. 4146 (abstract)"};

inline constexpr Cited<double> gas_constant = {8.314463, Provenance::memory, "CODATA, J/(mol K)"};

// What nobody measures in a home: our assumptions, covered by the factor of two below.
inline constexpr double room_celsius = 20;
inline constexpr double warm_celsius = 30;  ///< near sun or heat
inline constexpr double cold_celsius = 10;  ///< near cold
inline constexpr double humidity = 0.5;     ///< of saturation, in air no warmer than the room
inline constexpr units::Length wall = units::mm(1);  ///< of a container with holes
inline constexpr units::Length hole = units::mm(6);  ///< where only the area of holes is known
/// A bait whose water is less active than this is a thick syrup: it is stirred, not thinned.
inline constexpr double thick = 0.75;
/// The truth is taken to lie between the estimate over this and the estimate times this.
inline constexpr double doubt_factor = 2;

}  // namespace gallipot::reference::evaporation
