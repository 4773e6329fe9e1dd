#include "domain/plan/amount_checks.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <string>
#include <vector>

#include "domain/plan/placements.hpp"
#include "domain/reference/pests.hpp"

namespace gallipot::plan {

using reference::BaitCount;
using reference::Pest;

namespace {

diag::Text containers(int count) {
    return count == 1 ? diag::say("1 container") : diag::say("{} containers", count);
}

diag::Text range(const BaitCount& count) {
    return count.low == count.high ? diag::say("{}", count.low)
                                   : diag::say("{} to {}", count.low, count.high);
}

/// Empty: none.
std::string name_of(const job::LocalText* unit) {
    return unit == nullptr ? std::string() : unit->main();
}

/// "in all", or "in Flat 12".
diag::Text in_home(const HomeBaits& home) {
    return home.unit == nullptr ? diag::say("in all") : diag::say("in {}", home.unit->main());
}

/// At the mix where the job is one home, so that the mix can accept it; else at the home's first
/// station.
const diag::Place& place_of(const HomeBaits& home) {
    return home.unit == nullptr ? home.mix->place : home.first->id.place;
}

void check_liquid(const Pest& pest, const HomeBaits& home, diag::Diagnostics& out) {
    if (!pest.liquid || home.liquid_baits == 0) return;
    const auto& published = pest.liquid->value;
    const diag::Text usual =
        diag::say("{:.3g} to {:.3g} mL a house are published, at {} to {} stations ({})",
                  units::in_mL(published.low), units::in_mL(published.high), published.stations_low,
                  published.stations_high, pest.liquid->source);
    if (home.liquid < published.low) {
        out.warning(
            "little-bait", place_of(home),
            diag::say("little bait: {:.3g} mL of liquid against {} {}; {}",
                      units::in_mL(home.liquid), diag::term(pest.name), in_home(home), usual),
            "set out more stations or larger containers, or accept: [little-bait]");
    } else if (home.liquid_baits < published.stations_low) {
        out.warning(
            "few-baits", place_of(home),
            diag::say("few baits: {} of liquid against {} {}; {}", containers(home.liquid_baits),
                      diag::term(pest.name), in_home(home), usual),
            "share the bait out among more stations, or accept: [few-baits]");
    }
}

void check_paste(const Pest& pest, const HomeBaits& home, diag::Diagnostics& out) {
    if (!pest.paste || home.paste_baits == 0 || home.paste >= pest.paste->value.low) return;
    out.warning("little-bait", place_of(home),
                diag::say("little bait: {:.3g} g of paste against {} {}; {:.3g} to {:.3g} g a "
                          "home are published ({})",
                          units::in_g(home.paste), diag::term(pest.name), in_home(home),
                          units::in_g(pest.paste->value.low), units::in_g(pest.paste->value.high),
                          pest.paste->source),
                "set out more of it, in more places, or accept: [little-bait]");
}

/// Containers in the home and in those of its rooms that a number is published for.
void check_number(const job::Job& job, const Pest& pest, const HomeBaits& home,
                  const std::vector<RoomBaits>& rooms, diag::Diagnostics& out) {
    std::vector<diag::Text> few;
    const reference::Cited<BaitCount>* source = nullptr;
    for (const RoomBaits& room : rooms) {
        const auto published = *pest.baits_in(room.kind);
        if (name_of(room.unit) != name_of(home.unit) || room.baits >= published.value.low) continue;
        few.push_back(diag::say("{} in {} ({} published)", containers(room.baits),
                                room.name(job, {}), range(published.value)));
    }
    if (pest.per_home && counts_as_home(job) && !home.outside_units) {
        source = &*pest.per_home;
        if (home.baits < pest.per_home->value.low)
            few.push_back(diag::say("{} {} ({} a home published)", containers(home.baits),
                                    in_home(home), range(pest.per_home->value)));
    }
    if (few.empty()) return;
    if (source == nullptr) source = pest.per_kitchen ? &*pest.per_kitchen : &*pest.per_bathroom;
    out.warning("few-baits", place_of(home),
                diag::say("few baits against {}: {}; {}", diag::term(pest.name),
                          diag::joined(few, ", "), source->source),
                "set out more containers, with less in each, or accept: [few-baits]");
}

void check_every_room(const job::Job& job, const Pest& pest, const job::Mix& mix,
                      diag::Diagnostics& out) {
    if (!pest.every_room) return;
    std::vector<std::string> rooms;
    for (const job::Room* room : rooms_without(job, pest)) rooms.push_back(room->name->main());
    if (rooms.empty()) return;
    out.warning("rooms-without-bait", mix.place,
                diag::say("no bait against {} stands in {}; every room of a home is to have some "
                          "({})",
                          diag::term(pest.name), fmt::join(rooms, ", "), pest.every_room->source),
                "add a station with 'at' inside each room, or accept: [rooms-without-bait]");
}

}  // namespace

void check_amounts(const job::Job& job, const Plan& plan, diag::Diagnostics& out) {
    bool per_home = false;
    for (const Pest& pest : reference::pests()) {
        const auto mix = std::ranges::find_if(job.mixes, [&](const job::Mix& each) {
            return reference::find_pest(*each.against) == &pest;
        });
        if (mix == job.mixes.end()) continue;
        const auto homes = homes_with_bait(job, plan, pest);
        const auto rooms = rooms_with_number(job, pest);
        for (const HomeBaits& home : homes) {
            check_number(job, pest, home, rooms, out);
            if (home.outside_units) continue;
            check_liquid(pest, home, out);
            check_paste(pest, home, out);
        }
        per_home |= !homes.empty() && (pest.liquid || pest.paste || pest.per_home);
        check_every_room(job, pest, *mix, out);
    }
    if (per_home && flats_without_unit(job)) {
        out.warning("without-unit", job.premises->place,
                    "no station says which flat it is in, so the whole building is counted as one "
                    "house",
                    "add unit: Flat 12 or the like to each station, or accept: [without-unit]");
    }
}

}  // namespace gallipot::plan
