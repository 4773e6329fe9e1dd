#include "domain/plan/rooms.hpp"

#include <algorithm>

namespace gallipot::plan {

bool inside(const std::vector<job::Point>& outline, job::Point point) {
    // Crossings of a ray to the right.
    bool in = false;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        const job::Point& a = outline[i];
        const job::Point& b = outline[j];
        if ((a.y > point.y) == (b.y > point.y)) continue;
        const double along = (point.y - a.y) / (b.y - a.y);
        if (point.x < a.x + along * (b.x - a.x)) in = !in;
    }
    return in;
}

const job::Room* room_round(const job::Job& job, const job::Station& station) {
    if (!station.at || !job.floor_plan) return nullptr;
    const auto& rooms = job.floor_plan->rooms;
    const bool one_floor = std::all_of(rooms.begin(), rooms.end(), [&](const job::Room& room) {
        return room.floor.main() == rooms.front().floor.main();
    });
    for (const job::Room& room : rooms) {
        const bool on_it = one_floor || (station.floor && room.floor.main() == **station.floor) ||
                           (!station.floor && room.floor.empty());
        if (on_it && inside(room.outline, **station.at)) return &room;
    }
    return nullptr;
}

Whereabouts whereabouts(const job::Job& job, const job::Station& station,
                        std::string_view language) {
    const std::string& place = station.place->in(language);
    const std::string unit = station.unit ? (*station.unit)->in(language) + ": " : std::string();
    if (station.room) return {unit + (*station.room)->in(language), place};
    const auto comma = place.find(", ");
    if (comma != std::string::npos) return {unit + place.substr(0, comma), place.substr(comma + 2)};
    const job::Room* room = room_round(job, station);
    if (room == nullptr || room->name->in(language) == place) return {unit + place, {}};
    return {unit + room->name->in(language), place};
}

std::vector<const job::Station*> by_room(const job::Job& job) {
    std::vector<std::pair<std::string, std::vector<const job::Station*>>> rooms;
    for (const job::Station& station : job.stations) {
        const std::string room = whereabouts(job, station).room;
        auto at = std::find_if(rooms.begin(), rooms.end(),
                               [&](const auto& other) { return other.first == room; });
        if (at == rooms.end()) at = rooms.insert(at, {room, {}});
        at->second.push_back(&station);
    }
    std::vector<const job::Station*> all;
    for (const auto& [room, stations] : rooms)
        all.insert(all.end(), stations.begin(), stations.end());
    return all;
}

}  // namespace gallipot::plan
