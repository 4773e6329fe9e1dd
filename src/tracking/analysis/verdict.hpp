#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tracking/analysis/control.hpp"
#include "tracking/analysis/feeding.hpp"
#include "tracking/analysis/site.hpp"
#include "tracking/analysis/station_state.hpp"
#include "tracking/analysis/trend.hpp"

/// What all of it comes to at one station: flags, a verdict, what to do next and when. All data;
/// the words stand in the language catalogs.
namespace gallipot::analysis {

/// What needs an eye. The words are those of the JSON.
enum class Flag : std::uint8_t {
    rebound,
    stalled,
    clogged,
    wet,
    dry,
    spilt,
    moved,
    missing,
    mouldy,
    overdue,    ///< a visit is late
    past_date,  ///< bait stands there that keeps no longer
    never_visited
};
std::string_view word(Flag flag);  ///< "never visited"

enum class Verdict : std::uint8_t {
    not_started,    ///< nothing was due yet
    never_visited,  ///< something was, and nobody came
    not_counted,    ///< visited, but no pests were counted
    counted_once,   ///< one count: nothing to compare it with
    none_seen,      ///< every count was none
    gone,           ///< none at the last counts, after there were some
    none_now,       ///< none at the last count, which chance alone may have brought
    falling,        ///< beyond chance
    lower,          ///< half of the first count or less, but chance may have done it
    no_change,      ///< no clear change
    rising,         ///< more, beyond chance
    rebound,        ///< had fallen, and came back
    stalled,        ///< past the usual time, and no fall
    retired,        ///< over: nothing stands there any more
    control,        ///< nothing was set out here
    // Of treated wood, where the count is that of new holes; never "gone":
    wood_active,  ///< new holes after the treatment
    wood_quiet,   ///< no new holes through a whole flying season
    wood_unknown  ///< too early to tell
};

/// What must not be concluded from a fall.
enum class Caution : std::uint8_t {
    none,
    no_control,       ///< nothing to compare with: the season may have done it, or the pests moved
    not_together,     ///< a control was counted, but not in the same rounds, or not often enough
    none_at_control,  ///< no pests were ever seen at the controls: they tell nothing
    like_control,     ///< it fell at the control as well
    control_gone,     ///< the pests left the control too
    two_places,       ///< one place against one: what else differs between them may have done it
    one_control       ///< beyond the control, of which there is one alone
};

enum class Action : std::uint8_t {  // in the order of urgency on one day
    call_professional,
    find,         ///< look for it; put another in its place
    wipe_up,      ///< and fill it again
    put_back,     ///< where it stood
    set_out,      ///< nobody has yet
    visit,        ///< it is overdue
    replace,      ///< fresh bait: mouldy, wet or past its date
    clear,        ///< the holes
    top_up,       ///< by the date
    move_it,      ///< to where the pests walk, or where it stays dry and clear
    change_bait,  ///< to another kind
    take_up,      ///< done
    keep_going,   ///< until the date
    look          ///< the next planned visit
};

/// Why, where the action does not say it itself.
enum class Why : std::uint8_t {
    none,
    past_its_time,   ///< the bait, by then
    spoilt,          ///< mouldy, or water got in
    dry,             ///< nothing is left
    runs_empty,      ///< by then
    came_back,       ///< the pests
    worse,           ///< more of them than at first
    no_fall,         ///< in the usual time
    too_long,        ///< some are left after rules::long_enough_days
    in_wood,         ///< more of what lives in timber, which may carry a roof
    place_at_fault,  ///< the same trouble again and again
    none_came,       ///< none was ever seen here
    gone,            ///< none seen for the pest's days
    until_gone,      ///< take it up then, if none is seen until then
    until_traps,     ///< take it up once so many rounds with traps were empty too
    until_result,    ///< a result usually shows by then
    until_too_long,  ///< call a licensed professional then, if some are left
    none_fed,        ///< on the bait, soon after it was placed
    few_left         ///< after a fall by rules::fallen_far
};

struct Step {
    Action action = Action::look;
    Day on{};
    Why why = Why::none;
    int days = 0;       ///< that the reason speaks of
    int container = 0;  ///< from 1; 0: the whole station, with all that stands there
    /// Soonest first; of one day the most urgent, by container.
    auto operator<=>(const Step& other) const {
        if (const auto order = on <=> other.on; order != 0) return order;
        if (const auto order = action <=> other.action; order != 0) return order;
        return container <=> other.container;
    }
    bool operator==(const Step&) const = default;
};

/// What a verdict of a fall must be read with.
Caution caution_of(Verdict verdict, const Efficacy& efficacy);

struct StationReport {
    std::string id;
    bool control = false;
    bool retired = false;
    std::string pest;     ///< by the name in the table of pests, else as written
    bool timber = false;  ///< what lives in wood: followed by new holes, over years
    int gone_days = 0;  ///< none seen for so long: gone; 0 for what lives in wood and for controls
    std::size_t visits = 0;
    std::optional<LocalTime> last_visit;
    std::size_t dead = 0;  ///< dead pests counted in all
    Counts counts;
    Trend trend;
    Efficacy efficacy;
    Feeding feeding;
    /// Of a bait in containers, each of them; else empty.
    std::vector<ContainerState> containers;
    std::optional<Day> replace_by;  ///< the soonest of what stands there
    std::optional<Due> due;         ///< the visit that should be next
    std::vector<Flag> flags;
    Verdict verdict = Verdict::not_started;
    Caution caution = Caution::none;
    bool early = false;  ///< more at first is usual: the bait draws them
    /// By when a result usually shows; none when nobody knows, or it was never placed.
    std::optional<Day> result_by;
    std::vector<Step> steps;  ///< soonest first; never empty unless taken up or not started

    [[nodiscard]] bool has(Flag flag) const;
    /// "K1-2"; of 0, or where there is one alone, "K1".
    [[nodiscard]] std::string container_id(int number) const;
};

/// What the counts of a station come to, beside those of the others.
struct StationCounts {
    Counts counts;
    Trend trend;
    Efficacy efficacy;
};
/// When the baiting began: when it was placed, else at the first visit, else on `as_of`.
LocalTime start_of(const Site& site, std::span<const Observation> history, Day as_of);

/// One station as it stands at the end of `as_of`; `history` holds nothing later.
StationReport report_station(const Site& site, std::span<const Observation> history,
                             StationCounts counted, Day as_of);

}  // namespace gallipot::analysis
