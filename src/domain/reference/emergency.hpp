#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "domain/reference/cited.hpp"

namespace gallipot::reference {

/// One of several centres of a region, each for a part of it.
struct AreaNumber {
    std::string_view area;  ///< "Bonn (NW)"
    std::string_view phone;
    Standing standing = Standing::found;
};

/// Whom to ring in a region. Numbers change: whoever prints one asks the user to check it once.
struct EmergencyHelp {
    std::string_view region;       ///< ISO 3166-1 alpha-2
    std::string_view centre = {};  ///< its name, in a language of the region
    std::optional<Cited<std::string_view>> phone =
        {};                                ///< open to the public, for the whole region
    std::string_view hours = {};           ///< "24/7"; empty when not known
    std::vector<AreaNumber> by_area = {};  ///< where one number does not serve all
    std::optional<Cited<std::string_view>> emergency = {};  ///< an ambulance
    std::string_view note = {};  ///< what the number leaves out, for `check`
};

/// By region code. Regions of which nothing is known are not there.
std::span<const EmergencyHelp> emergency_help();

/// Null when the table has nothing on the region.
const EmergencyHelp* find_emergency_help(std::string_view region);

/// The emergency number of a region, with the number that holds in the whole EU behind it.
std::optional<Cited<std::string_view>> emergency_number(std::string_view region);

}  // namespace gallipot::reference
