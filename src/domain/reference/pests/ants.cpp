#include "domain/reference/pests/rows.hpp"

namespace gallipot::reference {

namespace {

using units::days;
using units::mL;
using units::Share;

constexpr std::string_view rust =
    "Rust, Reierson and Klotz 2002, bait toxicants for Argentine ants";
constexpr std::string_view klotz_1996 = "Klotz and others 1996, J. Econ. Entomol. 89:673-677";
constexpr std::string_view klotz_1997 =
    "Klotz and others 1997, liquid boric acid bait for Pharaoh ants in buildings";
constexpr std::string_view klotz_moss =
    "Klotz and Moss 1996, J. Entomol. Sci. 31:9-12 (from 0.13 %), and UC IPM, ant key (below 1 %)";
constexpr std::string_view klotz_fire =
    "Klotz, Vail and Williams 1997, J. Econ. Entomol. 90:488-491";
constexpr std::string_view pct_argentine =
    "Pest Control Technology, Baiting for the Troublesome Argentine Ant";
constexpr std::string_view pct_pharaoh = "Pest Control Technology, May 1999, on Pharaoh ants";
constexpr std::string_view cabi =
    "Urban Insect Pests: Sustainable Management Strategies (CABI), ants, read in excerpt";
constexpr std::string_view uc_key = "University of California IPM, ant key, carpenter ants";

/// What holds for all ants of a trail.
std::vector<Advice> trail() {
    return {{Topic::before, "advice.ants.clean", Provenance::found, marin_ants},
            {Topic::before, "advice.ants.leave_trail", Provenance::ours, our_own_rule},
            {Topic::place, "advice.ants.trail", Provenance::found, cabi},
            {Topic::place, "advice.ants.look_next_day", Provenance::found, cabi},
            count_alike,
            {Topic::count, "advice.count.line", Provenance::ours, our_own_rule},
            {Topic::after, "advice.ants.wipe_and_seal", Provenance::found,
             "UC Cooperative Extension, Contra Costa and Marin, Ants"},
            eight_weeks};
}

/// Found for the Argentine ant.
constexpr Advice season{Topic::food, "advice.ants.season", Provenance::found, pct_argentine};
constexpr Advice spacing{Topic::place, "advice.ants.spacing", Provenance::found, marin_ants};

std::vector<SeasonalFood> by_season() {
    return {{Season::spring, Food::protein, Provenance::found, pct_argentine},
            {Season::autumn, Food::sugar, Provenance::found, pct_argentine}};
}

Cited<Gone> two_weeks() {
    return {{days(14), 2}, Provenance::ours, our_own_rule};
}

Cited<LiquidPerHouse> per_house() {
    return {{mL(200), mL(800), 2, 4}, Provenance::found, cabi};
}

/// Ten to twenty feet.
Cited<Spacing> along_a_wall() {
    return {{units::m(3), units::m(6)}, Provenance::found, marin_ants};
}

Pest house_ants() {
    return {.name = "ants",
            .support = {Support::yes, Provenance::found, klotz_1996},
            .usual = {{Preparation::liquid, Share::percent(0.5), Share::percent(1.0),
                       Provenance::found, rust}},
            .result = {{{days(7), days(14), days(21)}, Provenance::found, klotz_1996}},
            .gone = two_weeks(),
            .liquid = per_house(),
            .spacing = along_a_wall(),
            .food = by_season(),
            .advice = together({{season, spacing}, trail()})};
}

Pest argentine_ants() {
    return {.name = "argentine ants",
            .support = {Support::yes, Provenance::found, klotz_1996},
            .usual = {{Preparation::liquid, Share::percent(0.5), Share::percent(1.0),
                       Provenance::found, rust}},
            .result = {{{days(7), days(14), days(21)}, Provenance::found, klotz_1996}},
            .gone = two_weeks(),
            .liquid = per_house(),
            .spacing = along_a_wall(),
            .food = by_season(),
            .advice = together({{season, spacing}, trail()})};
}

Pest pharaoh_ants() {
    return {.name = "pharaoh ants",
            .support = {Support::yes, Provenance::found, klotz_1997},
            .usual = {{Preparation::liquid, Share::percent(1.0), Share::percent(1.0),
                       Provenance::found, klotz_1997}},
            .result = {{{days(7), days(21), days(56)},
                        Provenance::found,
                        "Klotz and others 1997 (first week in buildings) and 1996 (three to eight "
                        "weeks)"}},
            .gone = two_weeks(),
            .every_room = {{true, Provenance::found, pct_pharaoh}},
            .advice = together(
                {{{Topic::warning, "advice.pharaoh_ants.no_spray", Provenance::found, pct_pharaoh},
                  {Topic::place, "advice.pharaoh_ants.rooms", Provenance::found, pct_pharaoh},
                  {Topic::food, "advice.pharaoh_ants.turn", Provenance::found, hawaii}},
                 trail()})};
}

Pest carpenter_ants() {
    return {
        .name = "carpenter ants",
        .support = {Support::yes, Provenance::found, klotz_moss},
        .usual = {{Preparation::liquid, Share::percent(0.13), Share::percent(1.0),
                   Provenance::found, klotz_moss}},
        .result = {{{days(21), days(42), days(56)},
                    Provenance::derived,
                    "\"several weeks\" (UC IPM, ant key) to the two months of the University of "
                    "Hawaii CTAHR (2012)"}},
        .gone = two_weeks(),
        .advice = together(
            {{{Topic::before, "advice.carpenter_ants.wet_wood", Provenance::found,
               "All Star Training, Carpenter Ants (2012): nests begin in wood that has been wet"},
              {Topic::place, "advice.carpenter_ants.outdoors", Provenance::found, uc_key},
              {Topic::food, "advice.pharaoh_ants.turn", Provenance::found, hawaii},
              {Topic::professional, "advice.carpenter_ants.load", Provenance::ours, our_own_rule}},
             trail()})};
}

Pest fire_ants() {
    return {
        .name = "fire ants",
        .support = {Support::weak, Provenance::found, klotz_fire},
        .usual = {{Preparation::liquid, Share::percent(0.25), Share::percent(1.0),
                   Provenance::found, klotz_fire}},
        .result = {{{days(21), days(42), days(56)},
                    Provenance::derived,
                    "six weeks in the laboratory (Klotz, Vail and Williams 1997)"}},
        .gone = two_weeks(),
        .advice = {{Topic::warning, "advice.fire_ants.report", Provenance::found,
                    "Queensland, Biosecurity Act 2014; National Fire Ant Eradication Program, "
                    "June 2024",
                    "AU"},
                   {Topic::professional, "advice.fire_ants.sting", Provenance::ours, our_own_rule},
                   count_alike,
                   {Topic::count, "advice.count.look", Provenance::ours, our_own_rule},
                   eight_weeks}};
}

}  // namespace

std::vector<Pest> ant_rows() {
    return {house_ants(), argentine_ants(), pharaoh_ants(), carpenter_ants(), fire_ants()};
}

}  // namespace gallipot::reference
