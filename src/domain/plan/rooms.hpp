#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "domain/job/job.hpp"

namespace gallipot::plan {

/// Where a station stands: "Kitchen, behind the bins" is the room "Kitchen" and the place "behind
/// the bins", unless the station says its room in a key of its own. Without a comma the floor
/// plan's room round the station's point is the room. In the words of a language (BCP 47), or in
/// the job's main one.
struct Whereabouts {
    std::string room;  ///< behind the station's unit: "Flat 12: Kitchen"
    std::string place;
};
Whereabouts whereabouts(const job::Job& job, const job::Station& station,
                        std::string_view language = {});

/// The stations in the job's order, but those of one room together where the room first comes.
std::vector<const job::Station*> by_room(const job::Job& job);

/// The room of the floor plan around the station's point. A station that names no floor may be on
/// the only one there is, whether that has a name or not. Null when it stands in none.
const job::Room* room_round(const job::Job& job, const job::Station& station);

/// Whether a point lies inside an outline; on its edge counts as inside or not.
bool inside(const std::vector<job::Point>& outline, job::Point point);

}  // namespace gallipot::plan
