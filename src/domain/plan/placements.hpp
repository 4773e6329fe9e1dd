#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/reference/pests.hpp"

/// How many baits, how much and how far apart a job sets out against a pest: in each home, in the
/// rooms that a number is published for, and along the outside. Sprayed wood is no bait.
namespace gallipot::plan {

/// Whether a number that is published for a home can be held against this building.
bool counts_as_home(const job::Job& job);

/// Whether the job is about flats and no station says in which it is: all count as one house.
bool flats_without_unit(const job::Job& job);

/// What one home has against a pest. Where stations say whose home they are in (`unit`), each of
/// those is one; else the whole job is.
struct HomeBaits {
    const job::LocalText* unit = nullptr;  ///< null: the whole job, or what is outside the units
    bool outside_units = false;            ///< no home of its own: there are units elsewhere
    const job::Mix* mix = nullptr;         ///< the first that is set out
    const job::Station* first = nullptr;   ///< the first station
    int baits = 0;                         ///< containers, whatever they hold
    int liquid_baits = 0;                  ///< containers of a liquid
    units::Volume liquid{};                ///< in all of them
    int paste_baits = 0;                   ///< containers of a paste
    units::Mass paste{};                   ///< in all of them
};

/// In the order in which the stations first name them; what is outside the units comes last.
std::vector<HomeBaits> homes_with_bait(const job::Job& job, const Plan& plan,
                                       const reference::Pest& pest);

/// A room for which the number of baits against a pest is published.
struct RoomBaits {
    const job::Room* room = nullptr;       ///< null: known only from its stations' places
    const job::Station* first = nullptr;   ///< the first station in it; null when there is none
    const job::LocalText* unit = nullptr;  ///< of its stations
    reference::RoomKind kind = reference::RoomKind::kitchen;
    int baits = 0;  ///< containers in it

    /// "Flat 12: Kitchen", in a language (BCP 47).
    [[nodiscard]] std::string name(const job::Job& job, std::string_view language) const;
};

/// The rooms of the floor plan in its order, then those that only stations' places name; the room
/// of each home by itself.
std::vector<RoomBaits> rooms_with_number(const job::Job& job, const reference::Pest& pest);

/// Two stations outdoors, nearest neighbours on one floor, that stand closer together or farther
/// apart than is published. Outdoors is what lies outside all rooms of the floor plan, or in one
/// that is called a yard, a balcony or the like.
struct Gap {
    const job::Station* from = nullptr;
    const job::Station* to = nullptr;
    units::Length apart{};  ///< in a straight line
};

/// Each pair once, in the job's order.
std::vector<Gap> unusual_gaps(const job::Job& job, const reference::Pest& pest);

/// The rooms of the floor plan in which no station sets out a mix against this pest.
std::vector<const job::Room*> rooms_without(const job::Job& job, const reference::Pest& pest);

}  // namespace gallipot::plan
