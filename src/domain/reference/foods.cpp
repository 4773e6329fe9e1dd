#include "domain/reference/atoms.hpp"
#include "domain/reference/tables.hpp"

namespace gallipot::reference {

using units::g_per_mL;
using units::mL_per_g;

namespace {

constexpr std::string_view atomic_weights =
    "sum of IUPAC abridged standard atomic weights over the formula";

/// That a substance has no hazard class.
StatedHazard no_class(Provenance provenance, std::string_view source) {
    return Cited<std::vector<HazardClass>>{{}, provenance, source};
}
/// A food from the shop is outside these rules as long as it is food (CLP Article 1(5)(e), memory);
/// no class of these is known.
StatedHazard food() {
    return no_class(Provenance::memory, "a food; no class in CLP Annex VI");
}

std::vector<SolubilityPoint> sucrose_solubility() {
    return {{{0}, 179.2},  {{5}, 184.7},  {{10}, 190.5}, {{15}, 197.0}, {{20}, 203.9},
            {{25}, 211.4}, {{30}, 219.9}, {{35}, 228.4}, {{40}, 238.1}, {{45}, 248.7},
            {{50}, 260.4}, {{55}, 273.1}, {{60}, 287.3}, {{65}, 302.9}, {{70}, 320.5},
            {{75}, 339.9}, {{80}, 362.1}, {{85}, 386.8}, {{90}, 415.7}, {{95}, 448.6},
            {{100}, 487.2}};
}
constexpr std::string_view sucrose_solubility_source =
    "Mohos, Confectionery and Chocolate Engineering (2010), Table A2.2";
/// The two tables of that book differ by 1.5 % at 90 C and agree elsewhere.
constexpr double sucrose_doubt = 0.015;

/// Glycerol's 1.16 of the same set of constants was found.
constexpr std::string_view norrish_source =
    "Norrish's constant: Chirife, Ferro Fontan and Benmergui 1980, J. Food Technol. 15";

Substance water() {
    return {
        .name = "water",
        .formal = "water",
        .also = {"tap water", "distilled water"},
        .state = State::liquid,
        .hazard = no_class(Provenance::memory, "water: no class in CLP Annex VI"),
        .density = found(units::Range<units::Density>::exactly(g_per_mL(0.9982071)),
                         "density tables of water at 20 C"),
        .true_density = found(g_per_mL(0.9982071), "density tables of water at 20 C"),
        .molar_mass_g_per_mol = derived(atoms::water, atomic_weights),
        .water = derived(1.0, "it is water"),
        .cas = "7732-18-5",
    };
}

Substance sugar() {
    return {
        .name = "sugar",
        .formal = "sucrose",
        .also = {"table sugar", "white sugar", "granulated sugar", "caster sugar"},
        .state = State::powder,
        .hazard =
            no_class(Provenance::found,
                     "data sheets of a sugar refiner (2014-11-21: no hazardous components) and "
                     "a laboratory supplier (sucrose: not a hazardous substance)"),
        .density = found(between(0.80, 0.845, 0.90),
                         "200 g a US cup, two kitchen tables; the bounds are recalled"),
        .true_density =
            found(g_per_mL(1.5805), "CRC Handbook, physical constants of organic compounds"),
        .molar_mass_g_per_mol = derived(atoms::sucrose, atomic_weights),
        .volume_in_solution =
            derived(mL_per_g(0.6185),
                    "density table of sucrose solutions at 20 %; the table itself "
                    "is used where the share is known"),
        .solubility = found(sucrose_solubility(), sucrose_solubility_source),
        .solubility_doubt = sucrose_doubt,
        .sugar = true,
        .holds_water = memory(HoldsWater{atoms::sucrose, 6.47}, norrish_source),
        .cas = "57-50-1",
    };
}

/// Sucrose ground fine with about 3 % of starch; the starch is counted as sugar.
Substance icing_sugar() {
    Substance it = sugar();
    it.name = "icing sugar";
    it.formal = "icing sugar";
    it.also = {"powdered sugar", "confectioners' sugar", "confectioners sugar"};
    it.hazard =
        no_class(Provenance::found,
                 "data sheet of a sugar refiner, 2014-11-21: 97 % sucrose and 3 % starch, no "
                 "hazardous components");
    it.density =
        found(between(0.42, 0.51, 0.56),
              "120 and 128 g a US cup unsifted, two kitchen tables; 100 g sifted recalled");
    return it;
}

Substance baking_soda() {
    return {
        .name = "baking soda",
        .formal = "sodium bicarbonate",
        .also = {"bicarbonate of soda", "sodium hydrogen carbonate"},
        .state = State::powder,
        // A laboratory supplier's US data sheet of 2018 has eye irritation 2B, which CLP lacks.
        .hazard =
            no_class(Provenance::found,
                     "a producer's data sheet by Regulation (EC) No 1272/2008, 2015-06-01: not "
                     "classified"),
        .density =
            found(between(0.69, 0.90, 1.20),
                  "bulk tables 43 and 55 lb/ft3, one kitchen measurement tapped down 1.2 g/mL"),
        .true_density =
            found(g_per_mL(2.2), "CRC Handbook, physical constants of inorganic compounds"),
        .molar_mass_g_per_mol = derived(atoms::bicarbonate, atomic_weights),
        .volume_in_solution =
            memory(mL_per_g(0.29), "apparent molar volume about 24 mL/mol, dilute"),
        // It gives off carbon dioxide above 50 C, so the table ends where it still is itself.
        .solubility = memory(
            std::vector<SolubilityPoint>{
                {{0}, 6.9}, {{10}, 8.15}, {{20}, 9.6}, {{30}, 11.1}, {{40}, 12.7}, {{50}, 14.45}},
            "handbook table, g per 100 g of water"),
        .solubility_doubt = 0.05,
        .cas = "144-55-8",
    };
}

Substance glycerol() {
    return {
        .name = "glycerol",
        .formal = "glycerol",
        .also = {"glycerin", "glycerine"},
        .state = State::liquid,
        // A database of data sheets calls it irritating; its suppliers' sheets do not.
        .hazard =
            no_class(Provenance::found,
                     "a supplier's data sheet by Regulation (EC) No 1272/2008, 2014-01-03: not "
                     "classified as hazardous"),
        .density = found(units::Range<units::Density>::exactly(g_per_mL(1.2613)),
                         "CRC Handbook, physical constants of organic compounds, 20 C"),
        .true_density =
            found(g_per_mL(1.2613), "CRC Handbook, physical constants of organic compounds, 20 C"),
        .molar_mass_g_per_mol = derived(atoms::glycerol, atomic_weights),
        .holds_water = found(HoldsWater{atoms::glycerol, 1.16},
                             "Norrish's constant: table of alditols, Int. J. Dent. 2010, 981072"),
        .cas = "56-81-5",
    };
}

/// A food that is poured or scooped from a jar: its true density is its density as poured.
Substance plain(std::string_view name, std::vector<std::string_view> also, State state,
                Cited<units::Range<units::Density>> density) {
    return {.name = name,
            .formal = name,
            .also = std::move(also),
            .state = state,
            .hazard = food(),
            .density = density,
            .true_density = {density.value.usual, density.provenance, density.source}};
}

Substance honey() {
    Substance it = plain("honey", {}, State::liquid,
                         found(between(1.40, 1.437, 1.45),
                               "340 g a US cup, two kitchen tables; the bounds are recalled"));
    it.water = memory(0.17, "food composition tables, 17 g in 100 g");
    // Its solids are glucose and fructose.
    it.holds_water = memory(HoldsWater{atoms::hexose, 2.25}, norrish_source);
    return it;
}

Substance corn_syrup() {
    Substance it = plain("corn syrup", {"glucose syrup"}, State::liquid,
                         found(between(1.36, 1.386, 1.42),
                               "328 g a US cup, a kitchen table; the bounds are recalled"));
    it.water = memory(0.22, "food composition tables, 22 g in 100 g");
    // 18016/42 for a dextrose equivalent of 42; the constant is fitted to four points of a table.
    it.holds_water = derived(HoldsWater{429, 6.2},
                             "corn syrup in Sloan and Labuza 1975: 14, 20, 30 and 54 g of water "
                             "on 100 g of solids at activities 0.6, 0.7, 0.8 and 0.9");
    return it;
}

Substance flour() {
    Substance it =
        plain("flour", {"wheat flour", "plain flour", "all-purpose flour"}, State::powder,
              found(between(0.45, 0.528, 0.60),
                    "125 and 120 g a US cup, two kitchen tables; the bounds are recalled"));
    it.true_density = memory(g_per_mL(1.45), "solid density of wheat flour");
    return it;
}

}  // namespace

std::vector<Substance> foods() {
    return {
        water(),
        sugar(),
        icing_sugar(),
        baking_soda(),
        glycerol(),
        honey(),
        corn_syrup(),
        flour(),
        plain("peanut butter", {}, State::paste,
              memory(between(1.05, 1.091, 1.13), "258 g a US cup, a food composition table")),
        plain("cooking oil", {"vegetable oil", "sunflower oil", "oil"}, State::liquid,
              memory(between(0.91, 0.92, 0.93), "handbook densities of vegetable oils at 20 C")),
    };
}

}  // namespace gallipot::reference
