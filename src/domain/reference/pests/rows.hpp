#pragma once

#include <initializer_list>
#include <vector>

#include "domain/reference/pests.hpp"

/// The rows of the table of pests by kind, and what several rows share. Not for other layers.
namespace gallipot::reference {

std::vector<Pest> ant_rows();
std::vector<Pest> cockroach_rows();
std::vector<Pest> wood_rows();
std::vector<Pest> bristletail_rows();  ///< silverfish and firebrats
std::vector<Pest> unsupported_rows();  ///< support is conflicting or none

// -- Sources and advice of more than one kind of pest ------------------------------------------

inline constexpr std::string_view our_own_rule = "our own rule";
inline constexpr std::string_view hawaii =
    "University of Hawaii CTAHR, Sugar Boric Acid Bait for Ants (2012)";
inline constexpr std::string_view marin_ants = "UC Marin Master Gardeners, Ants";

inline constexpr Advice count_alike{Topic::count, "advice.count.alike", Provenance::ours,
                                    our_own_rule};
/// Eight weeks and some left.
inline constexpr Advice eight_weeks{Topic::professional, "advice.professional.eight_weeks",
                                    Provenance::found, hawaii};

/// The lists one after the other.
std::vector<Advice> together(std::initializer_list<std::vector<Advice>> lists);

}  // namespace gallipot::reference
