#pragma once

#include <array>

#include "domain/reference/cited.hpp"

/// What glycerol adds to the solubility of borates.
namespace gallipot::reference {

/// Boric acid in mixtures of water and glycerol at 25 C.
struct GlycerolPoint {
    double share = 0;  ///< of glycerol, by mass, in the solvent (water and glycerol)
    double times = 1;  ///< what the solvent dissolves, over what as much water dissolves, by mass
};

/// 90.1, 90.1, 90.6, 92.9, 97.0, 103.0, 140.2 and 390.3 mmol in 100 mL of the saturated solution
/// from water to pure glycerol, made grams per mass of solvent with the densities of water and
/// glycerol and the apparent volume of boric acid (0.637 mL/g). Below 40 % glycerol dissolves no
/// more than water would: held at 1. Checked against what was found: 13.78 g in 100 g at 86.5 % and
/// 20 C, 24.2 g in 100 g of pure glycerol at 25 C (Chemdatabase, boric acid).
inline constexpr Cited<std::array<GlycerolPoint, 5>> boric_acid_in_glycerol = {
    {{{0, 1}, {0.4095, 1}, {0.487, 1.034}, {0.692, 1.36}, {1, 3.92}}},
    Provenance::memory,
    "Herz and Knoch 1905, as tabled by Seidell, Solubilities"};

/// Borax in pure glycerol, over what as much water dissolves at 25 C: 1 g in 1 mL of glycerol
/// (1.26 g), against 6.16 g in 100 g of water. Mixtures with water follow boric acid's curve, our
/// assumption: cautious, since borax binds glycerol more strongly.
inline constexpr Cited<double> borax_in_glycerol = {
    79.3 / 6.16, Provenance::found,
    "Pharmacy, Pharmacology and Therapeutics, Sodii Boras: soluble in 16 parts of water, in 1 of "
    "glycerin; a second textbook of materia medica says the same"};

/// How many times as much of a borate a solvent of water and glycerol dissolves as the same mass of
/// water. `borax`: of borax and its hydrates; else of boric acid, which stands in for octaborate
/// too, of which no figure was found.
double times_in_glycerol(double share, bool borax);

}  // namespace gallipot::reference
