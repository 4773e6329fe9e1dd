#pragma once

#include <optional>
#include <span>
#include <vector>

#include "tracking/analysis/history.hpp"
#include "tracking/analysis/site.hpp"

/// What is known of each container of a station after all that was noted of it.
namespace gallipot::analysis {

/// When something was put into a container, and which entry of the log says so (0: the job).
struct Filling {
    LocalTime at{};
    std::int64_t entry = 0;
    bool operator==(const Filling&) const = default;
};

/// What is in a container, as far as the log and the job tell.
struct Holding {
    /// Of older and newer bait on top of each other the stronger. Null: nobody knows.
    recipe::SharedRecipe recipe;
    bool mixed = false;      ///< two that differ are in it
    bool older = false;      ///< it is not what the job makes of its mix now
    bool other_mix = false;  ///< the job wants another mix in it by now
};

struct ContainerState {
    int number = 1;  ///< from 1, as in "K1-2"
    /// Found and not put right since. Stays, whatever else is noted, until an entry about this
    /// container (or one about the whole station, see ContainerFold) puts it right.
    visit::Marks<visit::State> open;
    bool set_out = false;   ///< somebody has set it out, by the job or by the log
    bool taken_up = false;  ///< for good, or until it is set out again
    /// Filled with fresh bait alone; none when nobody noted it.
    std::optional<Filling> fresh;
    /// Topped up since, over what was left of older bait.
    std::vector<Filling> topped_up;
    Holding holds;
    std::optional<int> level_percent;  ///< as read last, or 100 since it was filled
    /// When what stands in it is to be replaced: the time runs from the day it was filled with
    /// fresh bait, whatever was put on top later. None when it keeps, is not there, or nobody knows
    /// when that was.
    std::optional<Day> replace_by;

    [[nodiscard]] bool missing() const { return open.has(visit::State::missing); }
    /// There to be looked after.
    [[nodiscard]] bool standing() const { return set_out && !taken_up && !missing(); }
    /// The last time anything was put in.
    [[nodiscard]] std::optional<LocalTime> filled() const {
        if (!topped_up.empty()) return topped_up.back().at;
        return fresh ? std::optional(fresh->at) : std::nullopt;
    }
};

/// Follows one container through the entries of its station, in order of time. An entry about the
/// station as a whole tells of each of its containers, but not of one that an entry of its own
/// called missing or taken up: that one is found, replaced or set out again by an entry of its own.
class ContainerFold {
  public:
    /// Container `number` of `site`.
    ContainerFold(const Site& site, int number);

    /// Whether the entry told of it.
    bool see(const Observation& o);
    [[nodiscard]] const ContainerState& state() const { return state_; }

  private:
    void find(const Observation& o);
    void act(const Observation& o);

    bool only_;         ///< the station has no other: what is noted of the station is noted of it
    bool powder_;       ///< dry as it should be
    bool own_ = false;  ///< missing or taken up by an entry of its own
    ContainerState state_;
};

/// Every container of `site` after `history`, in order. A sprayed surface and a control count as
/// one.
std::vector<ContainerState> containers_of(const Site& site, std::span<const Observation> history);

}  // namespace gallipot::analysis
