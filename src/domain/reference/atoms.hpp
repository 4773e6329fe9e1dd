#pragma once

/// Standard atomic weights, IUPAC abridged values (found). Every molar mass here is made of them.
namespace gallipot::reference::atoms {

inline constexpr double hydrogen = 1.008;
inline constexpr double boron = 10.81;
inline constexpr double carbon = 12.011;
inline constexpr double oxygen = 15.999;
inline constexpr double sodium = 22.990;

inline constexpr double water = 2 * hydrogen + oxygen;
inline constexpr double boric_acid = 3 * hydrogen + boron + 3 * oxygen;
inline constexpr double borax_anhydrous = 2 * sodium + 4 * boron + 7 * oxygen;
inline constexpr double borax_pentahydrate = borax_anhydrous + 5 * water;
inline constexpr double borax_decahydrate = borax_anhydrous + 10 * water;
inline constexpr double octaborate = 2 * sodium + 8 * boron + 13 * oxygen + 4 * water;
inline constexpr double sucrose = 12 * carbon + 22 * hydrogen + 11 * oxygen;
inline constexpr double hexose = 6 * carbon + 12 * hydrogen + 6 * oxygen;
inline constexpr double bicarbonate = sodium + hydrogen + carbon + 3 * oxygen;
inline constexpr double glycerol = 3 * carbon + 8 * hydrogen + 3 * oxygen;

}  // namespace gallipot::reference::atoms
