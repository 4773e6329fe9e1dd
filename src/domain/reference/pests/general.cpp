#include <vector>

#include "domain/reference/pests/rows.hpp"

namespace gallipot::reference {

namespace {

constexpr std::string_view children =
    "University of California IPM, ant key; University of Hawaii CTAHR (2012)";
constexpr std::string_view food = "University of Hawaii CTAHR (2012): not where it falls into food";
constexpr std::string_view sun = "UC Irvine, Argentine Ant Control: avoid direct sunshine";
constexpr std::string_view plants =
    "Hawaii Ant Lab, LFA Fact Sheet 6 (2012): too much boric acid in soil harms plants";
constexpr std::string_view containers =
    "Western Cape Government, Keep Safe from Poison (2015): never containers for food or drink";
constexpr std::string_view leach =
    "NZ Farm Forestry Association, home-brew solution of borates: treated wood must stay dry";
constexpr std::string_view rinse =
    "Pesticide Environmental Stewardship, pesticidestewardship.org: rinse water goes where the mix "
    "may go; North Carolina State University: so with a hand sprayer";
constexpr std::string_view crystals = "the tables of solubility in reference";
constexpr std::string_view bare = "a borate supplier's directions: unpainted, unfinished wood";
constexpr std::string_view weekly = "University of Hawaii CTAHR (2012): check weekly, replace";
constexpr std::string_view evaporation =
    "Rust, Reierson and Klotz 2002: water loss makes the bait stronger than ants take";

Advice ours(Topic topic, std::string_view key) {
    return {topic, key, Provenance::ours, our_own_rule};
}
Advice found(Topic topic, std::string_view key, std::string_view source) {
    return {topic, key, Provenance::found, source};
}

}  // namespace

std::span<const Advice> general_advice() {
    static const std::vector<Advice> all{
        ours(Topic::before, "placement.before.take"),
        ours(Topic::before, "placement.before.labels"),
        ours(Topic::before, "placement.before.stand"),
        ours(Topic::before, "placement.before.hide"),
        found(Topic::place, "placement.check.children", children),
        found(Topic::place, "placement.check.pets", children),
        found(Topic::place, "placement.check.food", food),
        ours(Topic::place, "placement.check.rain"),
        found(Topic::place, "placement.check.sun", sun),
        ours(Topic::place, "placement.check.cold"),
        ours(Topic::place, "placement.check.heat"),
        found(Topic::place, "placement.check.plants", plants),
        ours(Topic::place, "placement.check.water"),
        ours(Topic::place, "placement.check.sockets"),
        ours(Topic::place, "placement.check.holes"),
        ours(Topic::place, "placement.check.roof"),
        ours(Topic::place, "placement.check.open_top"),
        ours(Topic::place, "placement.check.closed"),
        Advice{Topic::place, "placement.check.crystals", Provenance::derived, crystals},
        ours(Topic::place, "placement.check.control"),
        found(Topic::place, "placement.check.bare", bare),
        ours(Topic::place, "placement.check.keep_out"),
        ours(Topic::place, "placement.check.spray_food"),
        found(Topic::place, "placement.check.spray_rain", leach),
        ours(Topic::place, "placement.check.spray_heat"),
        found(Topic::place, "placement.check.spray_plants", plants),
        ours(Topic::place, "placement.check.spray_water"),
        ours(Topic::place, "placement.check.spray_sockets"),
        ours(Topic::place, "placement.check.any"),
        found(Topic::finish, "card.mix.rinse", rinse),
        ours(Topic::food, "tasting.steps.when"),
        ours(Topic::food, "tasting.steps.cards"),
        ours(Topic::food, "tasting.steps.spots"),
        ours(Topic::food, "tasting.steps.apart"),
        ours(Topic::food, "tasting.steps.count"),
        ours(Topic::food, "tasting.steps.clear"),
        ours(Topic::food, "tasting.follows.sugar"),
        ours(Topic::food, "tasting.follows.fat"),
        found(Topic::food, "tasting.follows.protein", hawaii),
        ours(Topic::food, "tasting.follows.equal"),
        ours(Topic::food, "tasting.follows.nothing"),
        ours(Topic::count, "takeover.visit.count"),
        ours(Topic::count, "takeover.visit.level"),
        ours(Topic::count, "takeover.visit.state"),
        ours(Topic::count, "takeover.visit.write"),
        ours(Topic::count, "takeover.visit.control"),
        found(Topic::count, "takeover.visit.no_sprays", hawaii),
        ours(Topic::after, "takeover.stop.gone"),
        found(Topic::after, "takeover.stop.long", hawaii),
        ours(Topic::after, "takeover.stop.worse"),
        ours(Topic::before, "placement.before.count"),
        ours(Topic::count, "visits.how.level"),
        ours(Topic::count, "visits.how.tick"),
        ours(Topic::count, "visits.how.log"),
        found(Topic::warning, "sheet.please.away", children),
        ours(Topic::warning, "sheet.please.tell"),
        ours(Topic::warning, "sheet.please.report"),
        ours(Topic::warning, "sheet.please.report_anyone"),
        ours(Topic::warning, "sheet.please.wash"),
        found(Topic::warning, "sheet.please.no_spray", hawaii),
        found(Topic::warning, "sheet.please.no_spray_until", hawaii),
        ours(Topic::warning, "sheet.please.no_wiping"),
        found(Topic::warning, "sheet.please.no_food", food),
        ours(Topic::warning, "sheet.please.no_opening"),
        ours(Topic::warning, "sheet.please.no_sanding"),
        ours(Topic::after, "takedown.before.gloves"),
        ours(Topic::after, "takedown.before.look"),
        ours(Topic::after, "takedown.before.missing"),
        ours(Topic::after, "takedown.dispose.ask"),
        ours(Topic::after, "takedown.dispose.close"),
        found(Topic::after, "takedown.dispose.never", plants),
        found(Topic::after, "takedown.dispose.empty", containers),
        ours(Topic::after, "takedown.dispose.wash"),
        ours(Topic::after, "action.call_professional"),
        ours(Topic::after, "action.find"),
        ours(Topic::after, "action.wipe_up"),
        ours(Topic::after, "action.put_back"),
        ours(Topic::after, "action.set_out"),
        ours(Topic::after, "action.visit"),
        found(Topic::after, "action.replace", weekly),
        ours(Topic::after, "action.clear"),
        found(Topic::after, "action.top_up", evaporation),
        ours(Topic::after, "action.move_it"),
        ours(Topic::after, "action.change_bait"),
        ours(Topic::after, "action.take_up"),
        ours(Topic::after, "action.keep_going"),
        ours(Topic::after, "action.look"),
    };
    return all;
}

}  // namespace gallipot::reference
