#include "domain/reference/pests/rows.hpp"

namespace gallipot::reference {

namespace {

using units::days;
using units::Share;

constexpr std::string_view gore_schal = "Gore and Schal 2004, J. Econ. Entomol. 97:581-587";
constexpr std::string_view dry_trial =
    "Kisaengchunghak Chapchi 1972, 10:95-99, dry baits with sugar";
constexpr std::string_view gel_trial = "Neupane and Kafle 2020, J. Kansas Entomol. Soc. 92:432-446";
constexpr std::string_view boric_acid = "boric acid; borax and octaborate acted less well";
/// With ready-made baits: none was found for home-made ones in a home.
constexpr std::string_view numbers =
    "Field Trials of Cockroach Baits, 1989, abstract: 12 ready-made baits a flat, 7 in the "
    "kitchen, 2 in the bathroom; University of Kentucky, at second hand: 10 and 2";
constexpr std::string_view gel_2019 =
    "D. Miller in Pest Control Technology, 16 July 2019: ready-made gel, by how many the traps "
    "caught";
constexpr std::string_view droplets =
    "Durier and Rivault 2003, in Public Health Significance of Urban Pests (WHO): in the "
    "laboratory";
constexpr std::string_view marin = "UC Marin Master Gardeners, Cockroaches";

std::vector<UsualStrength> strengths(Provenance provenance) {
    return {{Preparation::liquid, Share::percent(0.5), Share::percent(2.0), provenance, gore_schal,
             boric_acid},
            // Ten percent killed less than half in three days; twenty to fifty most of them.
            {Preparation::dry, Share::percent(20), Share::percent(50), provenance, dry_trial,
             "boric acid"},
            {Preparation::paste, Share::percent(40), Share::percent(40), provenance, gel_trial,
             "boric acid"}};
}

std::vector<Advice> common() {
    return {{Topic::before, "advice.cockroaches.clean", Provenance::found, marin},
            {Topic::before, "advice.cockroaches.traps", Provenance::found,
             "Wang and others 2018: 36 % of residents with cockroaches did not know"},
            count_alike,
            {Topic::count, "advice.count.dark", Provenance::ours, our_own_rule},
            {Topic::count, "advice.count.young", Provenance::ours, our_own_rule},
            {Topic::after, "advice.cockroaches.seal", Provenance::found, marin},
            eight_weeks};
}

/// Egg cases hatch at 28 to 30 days; two weeks more, and two rounds of empty traps.
Cited<Gone> hatched() {
    return {{days(45), 2, true},
            Provenance::ours,
            "our own rule: egg cases hatch at 28 to 30 days, and two weeks more"};
}

Cited<units::Range<units::Duration>> window() {
    return {{days(7), days(15), days(30)},
            Provenance::derived,
            "some still seen after 7 to 10 days (Blatticides III), nine in ten dead in 15 days in "
            "the laboratory (Gore and Schal 2004), about all after a month of the best gel in "
            "flats (Rutgers)"};
}

}  // namespace

std::vector<Pest> cockroach_rows() {
    return {{.name = "cockroaches",
             .support = {Support::yes, Provenance::found, gore_schal},
             .usual = strengths(Provenance::found),
             .result = window(),
             .gone = hatched(),
             .paste = {{{units::g(7.5), units::g(60)}, Provenance::derived, gel_2019}},
             .per_home = {{{12, 12}, Provenance::derived, numbers}},
             .per_kitchen = {{{7, 10}, Provenance::derived, numbers}},
             .per_bathroom = {{{2, 2}, Provenance::derived, numbers}},
             .advice = together(
                 {{{Topic::place, "advice.cockroaches.near", Provenance::found,
                    "Pest Management Professional, 20 April 2016: about 93 % are "
                    "young and stay near"},
                   {Topic::place, "advice.cockroaches.many", Provenance::found, droplets},
                   {Topic::place, "advice.cockroaches.ready_made", Provenance::derived, numbers}},
                  common()})},
            {.name = "large cockroaches",
             .support = {Support::weak, Provenance::derived,
                         "the trials of baits are with the German cockroach"},
             .usual = strengths(Provenance::derived),
             .result = window(),
             .gone = hatched(),
             .advice = together({{{Topic::place, "advice.large_cockroaches.near", Provenance::found,
                                   "Pest Control Technology, Granular Baits: one or two feet from "
                                   "where they hide"}},
                                 common()})}};
}

std::vector<Pest> bristletail_rows() {
    constexpr std::string_view montreal = "Montreal Space for Life, Silverfish and firebrats";
    const std::vector<Advice> jars{
        {Topic::before, "advice.silverfish.jar", Provenance::found, montreal},
        count_alike,
        {Topic::count, "advice.count.jar", Provenance::ours, our_own_rule},
        eight_weeks};
    return {{.name = "silverfish",
             .support = {Support::weak, Provenance::found,
                         "Parker 2000, Conservation DistList 14:5: boric acid is not very "
                         "effective"},
             .result = {{{days(19), days(43), days(60)},
                         Provenance::ours,
                         "our own rule: eggs hatch after 19 to 43 days (UC IPM, Silverfish and "
                         "Firebrats)"}},
             .gone = {{{days(60), 2}, Provenance::ours, "our own rule: longer than eggs lie"}},
             .advice = together(
                 {{{Topic::before, "advice.silverfish.dry", Provenance::found, montreal}}, jars})},
            {.name = "firebrats",
             .support = {Support::weak, Provenance::found,
                         "Millard, University of California Riverside (2009): boric acid was not "
                         "so effective"},
             .result = {{{days(14), days(28), days(60)},
                         Provenance::ours,
                         "our own rule: eggs hatch after about 14 days (UC IPM, Silverfish and "
                         "Firebrats)"}},
             .gone = {{{days(60), 2}, Provenance::ours, "our own rule: longer than eggs lie"}},
             .advice = together({{{Topic::place, "advice.firebrats.heat", Provenance::found,
                                   "Los Angeles Times, 29 July 1995, Silverfish and Firebrats"}},
                                 jars})}};
}

}  // namespace gallipot::reference
