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

Whereabouts whereabouts(const job::Job& job, const job::Station& station) {
    const std::string& place = station.place.value;
    const auto comma = place.find(", ");
    if (comma != std::string::npos) return {place.substr(0, comma), place.substr(comma + 2)};
    if (station.at && job.floor_plan) {
        const std::string floor = station.floor ? station.floor->value : std::string();
        for (const job::Room& room : job.floor_plan->rooms) {
            if (room.floor == floor && inside(room.outline, station.at->value) &&
                room.name.value != place) {
                return {room.name.value, place};
            }
        }
    }
    return {place, {}};
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
