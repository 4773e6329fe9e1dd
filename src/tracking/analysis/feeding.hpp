#pragma once

#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/history.hpp"
#include "tracking/analysis/site.hpp"

/// How fast the bait goes, eaten or dried up, and when it will be gone.
namespace gallipot::analysis {

/// A date and the bounds it lies within at 95 %; no `high` when it may as well not come at all.
struct Forecast {
    LocalTime at{};
    LocalTime low{};
    std::optional<LocalTime> high;
};

/// One container, or the whole station where its containers are not looked at one by one.
struct Level {
    int container = 0;                      ///< from 1; 0: the station as a whole
    std::optional<double> percent_per_day;  ///< of a full container; below 0 when it went up
    std::optional<Interval> rate;
    std::optional<double> left_percent;  ///< after what was done at the last visit that tells
    LocalTime as_read{};                 ///< when it was so
    /// When it was last filled with fresh bait alone; none when it was first seen part full, was
    /// topped up, or got wet or spilt since, so that nobody knows what strength it had.
    std::optional<LocalTime> filled;
    std::optional<Forecast> empty;  ///< none when it does not go, or is already gone
};

/// What was put out and what went of it, in full containers, summed over the containers.
struct Used {
    double put_out = 0;
    double gone = 0;
    /// A filling was noted without a level before it: then the whole container counts as gone and
    /// `put_out` and `gone` are upper bounds.
    bool at_most = false;
};

struct Feeding {
    std::vector<Level> levels;  ///< one, or one a container
    Used used;
    /// Of one container, or what stands for it where they were not looked at one by one.
    [[nodiscard]] const Level* of(int container) const;
    /// The container that is empty first, when any will be.
    [[nodiscard]] const Level* first_empty() const;
};

/// From the visits to a station. A level counts as eaten from one filling to the next; what rain
/// or a spill did is left out. Of a container that is missing all that was in it is gone.
Feeding feeding_of(const Site& site, std::span<const Observation> history);

/// One container's levels in order of time, in percent; a filling is a second point at its time.
using LevelPath = std::vector<std::pair<LocalTime, double>>;

/// For drawing: one path, or one a container, as feeding_of() has levels.
std::vector<LevelPath> level_paths(const Site& site, std::span<const Observation> history);

}  // namespace gallipot::analysis
