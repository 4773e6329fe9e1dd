#include "domain/plan/placements.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"

namespace gallipot::plan {

using reference::Pest;

namespace {

/// A station that sets out a bait against the pest.
struct Baited {
    std::size_t index = 0;
    const job::Station* station = nullptr;
    const job::Mix* mix = nullptr;
};

std::vector<Baited> baited(const job::Job& job, const Pest& pest) {
    std::map<std::string, const job::Mix*> mixes;
    for (const job::Mix& mix : job.mixes)
        if (reference::find_pest(*mix.against) == &pest) mixes.emplace(mix.id, &mix);
    std::vector<Baited> all;
    if (mixes.empty()) return all;
    for (std::size_t i = 0; i < job.stations.size(); ++i) {
        const job::Station& station = job.stations[i];
        if (!station.mix || !station.container || station.sprayed()) continue;
        if (const auto mix = mixes.find(**station.mix); mix != mixes.end())
            all.push_back({i, &station, mix->second});
    }
    return all;
}

/// Null: none.
const job::LocalText* unit_of(const job::Station& station) {
    return station.unit ? &station.unit->value : nullptr;
}

/// Empty: none.
std::string unit_name(const job::Station& station) {
    return station.unit ? (*station.unit)->main() : std::string();
}

void add(HomeBaits& home, const job::Job& job, const Plan& plan, const Baited& bait) {
    const job::Container* container = job.container(**bait.station->container);
    if (container == nullptr) return;
    const int count = bait.station->count;
    if (home.first == nullptr) home.first = bait.station;
    if (home.mix == nullptr) home.mix = bait.mix;
    home.baits += count;
    if (*bait.mix->form == job::Form::liquid) {
        home.liquid_baits += count;
        home.liquid += *container->fill * count;
    }
    const auto& contents = plan.stations[bait.index].per_container;
    if (*bait.mix->form == job::Form::paste && contents) {
        home.paste_baits += count;
        home.paste += contents->mass * count;
    }
}

/// The station's room, or "Kitchen" of "Kitchen, behind the bins", without the unit.
std::string room_in_place(const job::Station& station, std::string_view language) {
    if (station.room) return (*station.room)->in(language);
    const std::string& place = station.place->in(language);
    return place.substr(0, place.find(", "));
}

bool outdoors(const job::Job& job, const job::Station& station) {
    const job::Room* room = room_round(job, station);
    return room == nullptr ||
           reference::room_kind(room->name->main()) == reference::RoomKind::outdoors;
}

units::Length distance(job::Point a, job::Point b) {
    return units::m(std::hypot(units::in_m(a.x - b.x), units::in_m(a.y - b.y)));
}

using ByX = std::multimap<units::Length, const job::Station*>;

/// Its nearest neighbour; none where it is alone. Looks to both sides along x only as far as a
/// nearer one can still be.
Gap nearest_to(const job::Station& station, const ByX& all) {
    const job::Point at = **station.at;
    Gap nearest{&station};
    /// Whether one further along may still be nearer.
    const auto look = [&](units::Length x, const job::Station* other) {
        const units::Length along = x < at.x ? at.x - x : x - at.x;
        if (nearest.to != nullptr && along > nearest.apart) return false;
        if (other == &station) return true;
        const units::Length apart = distance(at, **other->at);
        if (nearest.to == nullptr || apart < nearest.apart) nearest = {&station, other, apart};
        return true;
    };
    const auto middle = all.lower_bound(at.x);
    for (auto right = middle; right != all.end() && look(right->first, right->second); ++right) {
    }
    for (auto left = middle; left != all.begin();) {
        --left;
        if (!look(left->first, left->second)) break;
    }
    return nearest;
}

}  // namespace

bool counts_as_home(const job::Job& job) {
    return !job.premises || **job.premises == job::Premises::home ||
           **job.premises == job::Premises::flats;
}

bool flats_without_unit(const job::Job& job) {
    return job.premises && **job.premises == job::Premises::flats &&
           std::ranges::none_of(job.stations,
                                [](const job::Station& it) { return it.unit.has_value(); });
}

std::vector<HomeBaits> homes_with_bait(const job::Job& job, const Plan& plan, const Pest& pest) {
    std::vector<HomeBaits> homes;
    std::map<std::string, std::size_t> numbers;
    HomeBaits rest;
    for (const Baited& bait : baited(job, pest)) {
        const std::string unit = unit_name(*bait.station);
        if (unit.empty()) {
            add(rest, job, plan, bait);
            continue;
        }
        const auto [number, is_new] = numbers.try_emplace(unit, homes.size());
        if (is_new) homes.push_back({unit_of(*bait.station)});
        add(homes[number->second], job, plan, bait);
    }
    rest.outside_units = !homes.empty();
    if (rest.baits > 0) homes.push_back(rest);
    return homes;
}

std::string RoomBaits::name(const job::Job& job, std::string_view language) const {
    if (room == nullptr) return whereabouts(job, *first, language).room;
    return (unit == nullptr ? "" : unit->in(language) + ": ") + room->name->in(language);
}

std::vector<RoomBaits> rooms_with_number(const job::Job& job, const Pest& pest) {
    std::vector<RoomBaits> rooms;
    if (!pest.per_kitchen && !pest.per_bathroom) return rooms;
    const auto published = [&](const std::string& name) {
        const auto kind = reference::room_kind(name);
        return kind && pest.baits_in(*kind) ? kind : std::nullopt;
    };
    const std::vector<Baited> baits = baited(job, pest);
    std::vector<const job::Room*> around;  // each bait; found once, as there may be many rooms
    around.reserve(baits.size());
    for (const Baited& bait : baits) around.push_back(room_round(job, *bait.station));
    std::map<std::pair<const job::Room*, std::string>, std::size_t> numbers;
    const auto count = [&](const Baited& bait, const job::Room* room, const std::string& key,
                           reference::RoomKind kind) {
        const auto [number, is_new] = numbers.try_emplace({room, key}, rooms.size());
        if (is_new) rooms.push_back({room, bait.station, unit_of(*bait.station), kind});
        rooms[number->second].baits += bait.station->count;
    };
    if (job.floor_plan) {
        for (const job::Room& room : job.floor_plan->rooms) {
            const auto kind = published(room.name->main());
            if (!kind) continue;
            for (std::size_t i = 0; i < baits.size(); ++i)
                if (around[i] == &room) count(baits[i], &room, unit_name(*baits[i].station), *kind);
            if (std::ranges::find(around, &room) == around.end())
                rooms.push_back({&room, nullptr, nullptr, *kind});
        }
    }
    for (std::size_t i = 0; i < baits.size(); ++i) {
        if (around[i] != nullptr) continue;
        const job::Station& station = *baits[i].station;
        const std::string name = room_in_place(station, {});
        if (const auto kind = published(name))
            count(baits[i], nullptr, unit_name(station) + ": " + name, *kind);
    }
    return rooms;
}

std::vector<Gap> unusual_gaps(const job::Job& job, const Pest& pest) {
    std::vector<Gap> gaps;
    if (!pest.spacing || !job.floor_plan) return gaps;
    std::map<std::string, std::vector<const job::Station*>> outside;  // by floor
    for (const Baited& bait : baited(job, pest))
        if (bait.station->at && outdoors(job, *bait.station))
            outside[floor_of(job, *bait.station)].push_back(bait.station);
    std::set<std::pair<const job::Station*, const job::Station*>> told;
    for (const auto& [floor, stations] : outside) {
        ByX by_x;
        for (const job::Station* station : stations) by_x.emplace((*station->at)->x, station);
        for (const job::Station* station : stations) {
            const Gap nearest = nearest_to(*station, by_x);
            if (nearest.to == nullptr) continue;
            const auto& published = pest.spacing->value;
            if (nearest.apart >= published.low && nearest.apart <= published.high) continue;
            if (told.contains({nearest.to, nearest.from})) continue;
            told.emplace(nearest.from, nearest.to);
            gaps.push_back(nearest);
        }
    }
    return gaps;
}

std::vector<const job::Room*> rooms_without(const job::Job& job, const Pest& pest) {
    std::vector<const job::Room*> without;
    if (!job.floor_plan) return without;
    std::set<const job::Room*> baited_rooms;
    for (const Baited& bait : baited(job, pest))
        baited_rooms.insert(room_round(job, *bait.station));
    for (const job::Room& room : job.floor_plan->rooms)
        if (!baited_rooms.contains(&room)) without.push_back(&room);
    return without;
}

}  // namespace gallipot::plan
