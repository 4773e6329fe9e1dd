#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "domain/reference/cited.hpp"

namespace gallipot::reference {

/// A telephone number, and when it was last known to be right.
struct Number {
    std::string_view value;
    Provenance provenance = Provenance::found;
    std::string_view source;
    /// The last day on which its source is known to have shown it: when the page was written or
    /// last changed. None where the page does not say.
    std::optional<std::chrono::year_month_day> shown_on = {};
};

/// One of several centres of a region, each for a part of it.
struct AreaNumber {
    std::string_view area;  ///< "Bonn (NW)"
    Number phone;
};

/// Whom to call in a region. Numbers change: whoever prints one asks the user to look it up once.
struct EmergencyHelp {
    std::string_view region;                  ///< ISO 3166-1 alpha-2
    std::string_view centre = {};             ///< its name, in a language of the region
    std::optional<Number> phone = {};         ///< open to the public, for the whole region
    std::string_view hours = {};              ///< "24/7"; empty when not known
    std::vector<AreaNumber> by_area = {};     ///< where one number does not serve all
    std::optional<Number> emergency = {};     ///< an ambulance
    std::string_view animal_centre = {};      ///< the name of one for animals
    std::optional<Number> animal_phone = {};  ///< open to the public
    std::string_view note = {};               ///< what the number leaves out, for `check`
};

/// By region code. Regions of which nothing is known are not there.
std::span<const EmergencyHelp> emergency_help();

/// Null when the table has nothing on the region.
const EmergencyHelp* find_emergency_help(std::string_view region);

/// The emergency number of a region, with the number that holds in the whole EU behind it.
std::optional<Number> emergency_number(std::string_view region);

/// Whether a number needs to be looked up again: it was shown more than two years before `today`
/// (ours: so long does a label of this kind of work last), or nobody knows when.
bool is_old(const Number& number, std::chrono::year_month_day today);

}  // namespace gallipot::reference
