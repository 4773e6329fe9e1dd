#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "tracking/visit/visit.hpp"

namespace gallipot::recipe {

/// What a station was, for the time when the job does not have it any more: kept in the log.
struct FormerStation {
    std::string pest;  ///< by the name in the table of pests, else as written; may be empty
    bool control = false;
    bool sprayed = false;
    int containers = 0;
    std::optional<visit::LocalTime> placed;

    bool operator==(const FormerStation&) const = default;
};

/// In the log: JSON.
std::string print(const FormerStation& station);
/// None for a text that is not of print().
std::optional<FormerStation> parse_station(std::string_view text);

}  // namespace gallipot::recipe
