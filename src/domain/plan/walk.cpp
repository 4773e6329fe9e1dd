#include "domain/plan/walk.hpp"

#include <algorithm>
#include <map>

#include "domain/plan/rooms.hpp"
#include "domain/route/round.hpp"

namespace gallipot::plan {

namespace {

using Indices = std::vector<std::size_t>;

route::Point point(job::Point p) {
    return {units::in_m(p.x), units::in_m(p.y)};
}

/// The floor the walk begins on: that of the room round its start, else the first.
std::size_t first_floor(const job::Job& job, const std::vector<std::string>& names) {
    if (!job.floor_plan || !job.floor_plan->start) return 0;
    for (std::size_t i = 0; i < names.size(); ++i)
        for (const job::Room& room : job.floor_plan->rooms)
            if (room.floor.main() == names[i] && inside(room.outline, **job.floor_plan->start))
                return i;
    return 0;
}

/// One floor's stations with a point, in the order of the round.
Indices round_of(const job::Job& job, const Indices& located, const job::Point* start) {
    std::vector<route::Point> points;
    points.reserve(located.size() + 1);
    if (start != nullptr) points.push_back(point(*start));
    const std::size_t shift = points.size();
    for (const std::size_t i : located) points.push_back(point(**job.stations[i].at));
    Indices order;
    for (const std::size_t i : route::round(points))
        if (i >= shift) order.push_back(located[i - shift]);
    return order;
}

Indices walk_floor(const job::Job& job, const Indices& stations, const job::Point* start) {
    Indices located;
    std::map<std::string, Indices> unlocated;  // by room
    std::vector<std::string> rooms;            // of those, as they come
    for (const std::size_t i : stations) {
        if (job.stations[i].at) {
            located.push_back(i);
            continue;
        }
        Indices& room = unlocated[whereabouts(job, job.stations[i]).room];
        if (room.empty()) rooms.push_back(whereabouts(job, job.stations[i]).room);
        room.push_back(i);
    }
    located = round_of(job, located, start);
    if (unlocated.empty()) return located;

    std::map<std::string, std::size_t> last;  // of each room, the last of the round
    for (const std::size_t i : located) last[whereabouts(job, job.stations[i]).room] = i;
    Indices order;
    const auto add = [&](const std::string& room) {
        const auto found = unlocated.find(room);
        if (found == unlocated.end()) return;
        order.insert(order.end(), found->second.begin(), found->second.end());
        unlocated.erase(found);
    };
    for (const std::size_t i : located) {
        order.push_back(i);
        const std::string room = whereabouts(job, job.stations[i]).room;
        if (last[room] == i) add(room);
    }
    for (const std::string& room : rooms) add(room);
    return order;
}

/// floor_of() for many stations.
class Floors {
  public:
    explicit Floors(const job::Job& job) : job_(job), names_(floors(job)) {
        if (!job.floor_plan) return;
        for (const job::Room& room : job.floor_plan->rooms)
            by_room_.emplace(room.name->main(), room.floor.main());
    }

    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
    [[nodiscard]] std::string of(const job::Station& station) const {
        if (station.floor) return **station.floor;
        if (names_.size() == 1) return names_.front();
        const auto room = by_room_.find(whereabouts(job_, station).room);
        return room == by_room_.end() ? std::string() : room->second;
    }

  private:
    const job::Job& job_;
    std::vector<std::string> names_;
    std::map<std::string, std::string> by_room_;
};

}  // namespace

std::vector<std::string> floors(const job::Job& job) {
    std::vector<std::string> names;
    if (job.floor_plan)
        for (const job::Room& room : job.floor_plan->rooms)
            if (std::find(names.begin(), names.end(), room.floor.main()) == names.end())
                names.push_back(room.floor.main());
    if (names.empty()) names.emplace_back();
    return names;
}

std::string floor_in(const job::Job& job, const std::string& floor, std::string_view language) {
    if (job.floor_plan)
        for (const job::Room& room : job.floor_plan->rooms)
            if (room.floor.main() == floor) return room.floor.in(language);
    return floor;
}

std::string floor_of(const job::Job& job, const job::Station& station) {
    return Floors(job).of(station);
}

std::vector<std::size_t> walk(const job::Job& job) {
    const Floors floors(job);
    const auto& names = floors.names();
    // One more for stations of which nobody knows the floor.
    std::vector<Indices> on(names.size() + 1);
    for (std::size_t i = 0; i < job.stations.size(); ++i) {
        const auto name = std::find(names.begin(), names.end(), floors.of(job.stations[i]));
        on[static_cast<std::size_t>(name - names.begin())].push_back(i);
    }
    const std::size_t first = first_floor(job, names);
    const job::Point* start =
        job.floor_plan && job.floor_plan->start ? &**job.floor_plan->start : nullptr;
    Indices order;
    const auto add = [&](std::size_t floor) {
        const Indices part = walk_floor(job, on[floor], floor == first ? start : nullptr);
        order.insert(order.end(), part.begin(), part.end());
    };
    add(first);
    for (std::size_t floor = 0; floor < on.size(); ++floor)
        if (floor != first) add(floor);
    return order;
}

}  // namespace gallipot::plan
