#include <span>

#include "domain/reference/atoms.hpp"
#include "domain/reference/tables.hpp"

namespace gallipot::reference {

using units::g_per_mL;
using units::mL_per_g;

namespace {

constexpr std::string_view atomic_weights =
    "sum of IUPAC abridged standard atomic weights over the formula";

/// Borax: percent of decahydrate by mass in the saturated solution. From 60.8 C on the solid in
/// equilibrium is the pentahydrate; the figures stay on the decahydrate's basis.
/// Producers' product data, recalled; the 20 C figure was also found quoted from a data sheet.
struct SaturatedPoint {
    double celsius, percent;
};
constexpr SaturatedPoint borax_saturated[] = {
    {0, 1.99},   {5, 2.46},   {10, 3.09},  {15, 3.79},  {20, 4.71},  {25, 5.80},  {30, 7.20},
    {35, 9.02},  {40, 11.22}, {45, 14.21}, {50, 17.91}, {55, 23.22}, {60, 30.32}, {65, 33.89},
    {70, 36.94}, {75, 40.18}, {80, 44.31}, {85, 48.52}, {90, 53.18}, {95, 58.94}, {100, 65.63}};

/// Disodium octaborate tetrahydrate: percent by mass in the saturated solution. Producers' product
/// data, recalled.
constexpr SaturatedPoint octaborate_saturated[] = {{0, 2.4},   {10, 4.5},  {20, 9.5},
                                                   {30, 21.9}, {40, 27.8}, {50, 32.0},
                                                   {60, 35.0}, {75, 39.3}, {94, 45.3}};

/// From percent of one hydrate in the saturated solution to grams of another hydrate (or the same)
/// per 100 g of water *added*. In 100 g of solution that hold p g of the one there are
/// q = p (M_other / M_one) g of the other, because both bring the same salt; the rest, 100 - q, is
/// what was added as water, crystal water having come with the solid. So 100 q / (100 - q).
std::vector<SolubilityPoint> per_added_water(std::span<const SaturatedPoint> saturated,
                                             double molar_mass_ratio) {
    std::vector<SolubilityPoint> points;
    for (const auto& [celsius, percent] : saturated) {
        const double q = percent * molar_mass_ratio;
        points.push_back({{celsius}, 100 * q / (100 - q)});
    }
    return points;
}

/// The harmonised class of every borate here (CLP Annex VI): index 005-007-00-2 (boric acid),
/// 005-011-01-1 and -02-9 (borax and its pentahydrate).
constexpr std::string_view harmonised =
    "CLP Annex VI, Repr. 1B with H360FD: title page of the Swedish Chemicals Agency's CLH report "
    "of "
    "2018-11-02";
/// Disodium tetraborates are Eye Irrit. 2 by their registrants, not in Annex VI: dossier
/// 100.249.429, section 7.4.1; a supplier's data sheet of 2016-02-02 lists H319 besides H360FD, one
/// of 2015-06-25 does not (all found).
StatedHazard tetraborate_hazard() {
    return derived(std::vector{HazardClass::reproductive_1b, HazardClass::eye_irritation_2},
                   "CLP Annex VI (CLH report of 2018-11-02, found), and the registrants' own Eye "
                   "Irrit. 2 (dossier 100.249.429, section 7.4.1, found)");
}

/// Apparent specific volumes of borates in solution, mL/g. Borax: from 1.0249, the specific gravity
/// (15 C) of a 5 % solution in an old table recalled: (1/1.0249 - 0.95)/0.05. Boric acid: 39.4
/// mL/mol recalled for dilute solutions. The others bring the same salt with less water, so their
/// volume is that of what they turn into less the water taken up, which is exact for an ideal
/// mixture.
constexpr double water_volume = 1 / 0.9982071;
constexpr double borax_volume = 0.515;
constexpr double boric_acid_volume = 39.4 / atoms::boric_acid;
constexpr double pentahydrate_volume =
    (borax_volume * atoms::borax_decahydrate - 5 * atoms::water * water_volume) /
    atoms::borax_pentahydrate;
/// Na2B8O13.4H2O + 12 H2O = Na2B4O7.10H2O + 4 H3BO3
constexpr double octaborate_volume =
    (borax_volume * atoms::borax_decahydrate + 4 * boric_acid_volume * atoms::boric_acid -
     12 * atoms::water * water_volume) /
    atoms::octaborate;

Substance borax() {
    return {
        .name = "borax",
        .formal = "borax decahydrate",
        .also = {"sodium tetraborate", "sodium tetraborate decahydrate",
                 "disodium tetraborate decahydrate", "sodium borate"},
        .state = State::powder,
        .hazard = tetraborate_hazard(),
        .density =
            found(between(0.77, 0.85, 0.96),
                  "bulk tables: 53 and 55 lb/ft3 (fine), a supplier's 48 lb/ft3, one kitchen "
                  "measurement tapped down 0.96 g/mL; the usual value is the 53 lb/ft3"),
        .true_density =
            found(g_per_mL(1.73), "CRC Handbook, physical constants of inorganic compounds"),
        .molar_mass_g_per_mol = derived(atoms::borax_decahydrate, atomic_weights),
        .boron_atoms = 4,
        .volume_in_solution =
            memory(mL_per_g(borax_volume), "specific gravity 1.0249 of a 5 % solution at 15 C"),
        .solubility =
            memory(per_added_water(borax_saturated, 1),
                   "borate producers' product data, percent of decahydrate in the saturated "
                   "solution; 4.71 % at 20 C found quoted from a data sheet"),
        .solubility_doubt = 0.05,
        .cas = "1303-96-4",
    };
}

Substance borax_pentahydrate() {
    return {
        .name = "borax pentahydrate",
        .formal = "borax pentahydrate",
        .also = {"sodium tetraborate pentahydrate", "disodium tetraborate pentahydrate"},
        .state = State::powder,
        .hazard = tetraborate_hazard(),
        .density = memory(between(0.90, 1.00, 1.10), "borate producers' product data"),
        .true_density =
            found(g_per_mL(1.88), "CRC Handbook, physical constants of inorganic compounds"),
        .molar_mass_g_per_mol = derived(atoms::borax_pentahydrate, atomic_weights),
        .boron_atoms = 4,
        .volume_in_solution = derived(mL_per_g(pentahydrate_volume),
                                      "that of borax in solution less the crystal water taken up"),
        // What crystallises below about 60 C is the decahydrate, whichever hydrate went in.
        .solubility = derived(
            per_added_water(borax_saturated, atoms::borax_pentahydrate / atoms::borax_decahydrate),
            "the table of borax decahydrate through equal salt"),
        .solubility_doubt = 0.05,
        .cas = "12179-04-3",
    };
}

Substance boric_acid() {
    return {
        .name = "boric acid",
        .formal = "boric acid",
        .also = {"orthoboric acid", "boracic acid"},
        .state = State::powder,
        // Eyes: "no classification is indicated" (dossier 33597, section 7.4.1, found).
        .hazard = found(std::vector{HazardClass::reproductive_1b}, harmonised),
        .density =
            memory(between(0.55, 0.80, 0.90),
                   "recalled range, fluffy to granular; 55 lb/ft3 (0.88 g/mL) found for fine"),
        .true_density = found(g_per_mL(1.435), "Chemdatabase, boric acid, at 15 C"),
        .molar_mass_g_per_mol = derived(atoms::boric_acid, atomic_weights),
        .boron_atoms = 1,
        .volume_in_solution =
            memory(mL_per_g(boric_acid_volume), "apparent molar volume 39.4 mL/mol, dilute, 25 C"),
        .solubility = found(std::vector<SolubilityPoint>{{{0}, 2.77},
                                                         {{10}, 3.65},
                                                         {{20}, 4.87},
                                                         {{25}, 5.74},
                                                         {{30}, 6.77},
                                                         {{40}, 8.90},
                                                         {{50}, 11.39},
                                                         {{60}, 14.89},
                                                         {{80}, 23.54},
                                                         {{87.5}, 28},
                                                         {{100}, 38}},
                            "Chemdatabase, boric acid, water row, g per 100 g of water"),
        // A second table (mass percent 2.52 at 0 C, 4.72 at 20 C) is 7 % lower at 0 C.
        .solubility_doubt = 0.07,
        .cas = "10043-35-3",
    };
}

Substance octaborate() {
    return {
        .name = "disodium octaborate",
        .formal = "disodium octaborate tetrahydrate",
        .also = {"DOT", "sodium octaborate"},
        .state = State::powder,
        .hazard = memory(std::vector{HazardClass::reproductive_1b},
                         "Regulation (EU) 2017/776, index 005-020-00-3: H360FD, no class for eyes"),
        .density = memory(between(0.32, 0.42, 0.56), "producers' product data, loose to packed"),
        .true_density = memory(g_per_mL(1.87), "producers' product data"),
        .molar_mass_g_per_mol = derived(atoms::octaborate, atomic_weights),
        .boron_atoms = 8,
        .volume_in_solution = derived(mL_per_g(octaborate_volume),
                                      "borax and boric acid in solution less the water taken up"),
        .solubility = memory(per_added_water(octaborate_saturated, 1),
                             "borate producers' product data, percent in the saturated solution"),
        .solubility_doubt = 0.10,
        .cas = "12280-03-4",
    };
}

}  // namespace

std::vector<Substance> borates() {
    return {borax(), borax_pentahydrate(), boric_acid(), octaborate()};
}

}  // namespace gallipot::reference
