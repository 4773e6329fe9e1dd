#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "domain/job/job.hpp"

namespace gallipot::plan {

/// The names of the floors, in the job's main language, in the order the floor plan first has them;
/// one without a name when it has no rooms or there is no plan.
std::vector<std::string> floors(const job::Job& job);

/// What a floor of that name is called in a language (BCP 47).
std::string floor_in(const job::Job& job, const std::string& floor, std::string_view language);

/// The floor a station is on: as it says itself, else the only one there is, else that of the room
/// it names. Empty when none of these says.
std::string floor_of(const job::Job& job, const job::Station& station);

/// In which order to walk to the stations: indices into the job's, each once. Floor by floor, on
/// each a short round from the floor plan's start, on other floors from the first station
/// there. Stations with no point on the plan follow the last of their room that has one, in file
/// order; rooms where none has one come last on their floor.
std::vector<std::size_t> walk(const job::Job& job);

}  // namespace gallipot::plan
