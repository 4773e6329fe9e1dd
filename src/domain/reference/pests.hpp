#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/reference/cited.hpp"

/// The table of pests: what a home-made borate bait or timber treatment can do against each, and
/// what may be advised. Every value stands beside its source; `Provenance::ours` marks a rule of
/// our own. What could not be confirmed is not in the table: see pests/README.md.
namespace gallipot::reference {

enum class Preparation { liquid, dry, paste, spray };

/// Whether published trials support a home-made borate preparation against the pest.
enum class Support {
    yes,          ///< trials with the kind of bait that people mix at home
    weak,         ///< laboratory only, a part of the problem only, or poor results
    conflicting,  ///< trials contradict each other
    none          ///< no published trial found, or the pest does not eat such bait
};

/// Usual strength of such a preparation: boric acid equivalent by mass, because the boron decides
/// how fast it acts (Klotz and others 2000, J. Econ. Entomol. 93:1256-1258).
struct UsualStrength {
    Preparation preparation;
    units::Share low, high;
    Provenance provenance = Provenance::found;
    std::string_view source;          ///< "common practice" where nobody has published it
    std::string_view found_for = {};  ///< the compounds tested, where others acted less well
};

/// Which part of the work a sentence of advice belongs to.
enum class Topic {
    warning,       ///< what must never be done, or is dangerous: on every paper
    label,         ///< the warning in short, for the labels of vessels
    before,        ///< before anything is set down or sprayed
    place,         ///< where it goes
    food,          ///< which food draws the pest, by season
    apply,         ///< how to treat wood: steps on the mixing card
    finish,        ///< once the wood is treated: the last of these steps
    count,         ///< how to count, at most three lines
    after,         ///< once the pest is gone
    professional,  ///< when to ask a licensed professional
    instead        ///< what to do instead, where the support is none or conflicting
};

enum class Season { spring, summer, autumn, winter };
enum class Food { sugar, fat, protein };

/// One sentence of advice. `key` is its text in the catalogs, below "advice".
struct Advice {
    Topic topic;
    std::string_view key;
    Provenance provenance;
    std::string_view source;  ///< "common practice" or "our own rule" where nobody published it
    std::string_view region = {};  ///< only printed there (ISO 3166-1 alpha-2); empty: everywhere
};

/// Rooms by what is done there, as far as bait is set out by it.
enum class RoomKind { kitchen, bathroom, outdoors };

/// The kind that a room's name says, in any of our languages: "Teeküche", "Balcony". None when it
/// says none of them.
std::optional<RoomKind> room_kind(std::string_view name);

/// How many baits are published for a place, each in a container of its own.
struct BaitCount {
    int low = 0, high = 0;
};

/// How much of a paste bait is published for one home.
struct PastePerHome {
    units::Mass low, high;
};

/// How far apart baits are set along an outside wall.
struct Spacing {
    units::Length low, high;
};

/// How much of a liquid bait is published for one house.
struct LiquidPerHouse {
    units::Volume low, high;
    int stations_low = 0, stations_high = 0;
};

/// When the pest counts as gone.
struct Gone {
    units::Duration none_seen_for;
    int empty_counts = 1;   ///< so many counts of none in a row at least
    bool in_traps = false;  ///< counts with traps, for many are never seen
};

/// Which food draws the pest most in a season.
struct SeasonalFood {
    Season season;
    Food food;
    Provenance provenance;
    std::string_view source;
};

struct Pest {
    std::string_view name = {};  ///< "ants": the key in the catalogs and in JSON
    Cited<Support> support = {};
    bool lives_in_wood = false;  ///< followed by holes, powder and moisture over years
    std::vector<UsualStrength> usual = {};
    /// Days after placing until a decline is usually seen: the first signs, the usual day, and the
    /// day from which the bait may be judged.
    std::optional<Cited<units::Range<units::Duration>>> result = {};
    std::optional<Cited<Gone>> gone = {};
    std::optional<Cited<LiquidPerHouse>> liquid = {};
    std::optional<Cited<PastePerHome>> paste = {};
    std::optional<Cited<BaitCount>> per_home = {}, per_kitchen = {}, per_bathroom = {};
    std::optional<Cited<Spacing>> spacing = {};
    /// At least one station in every room of a home.
    std::optional<Cited<bool>> every_room = {};
    /// What a message tells to do instead, as an imperative; where the support is none or
    /// conflicting.
    std::string_view instead = {};
    std::vector<SeasonalFood> food = {};
    std::vector<Advice> advice = {};

    /// Its sentences of one topic that are printed in a region, in the table's order.
    [[nodiscard]] std::vector<const Advice*> advice_on(Topic topic, std::string_view region) const;
    /// None where no number is published for such a room.
    [[nodiscard]] std::optional<Cited<BaitCount>> baits_in(RoomKind room) const;
};

std::span<const Pest> pests();

/// Advice on the papers that holds for every pest, whatever it is. What protects people (gloves,
/// first aid, storing) stands with `safety`, and how to mix with `mixing`.
std::span<const Advice> general_advice();

/// By the table's own name; null when it is not there.
const Pest* pest_named(std::string_view name);

/// The pest that a job's text means: "Ants", "sugar ants in the kitchen", "weiße Ameisen". Names
/// are matched as whole phrases, letter case ignored in every script; the longest phrase wins, so
/// "white ants" are termites. A German compound matches by its last part ("Gartenameisen"). Where a
/// text names several pests, the one that calls for the most caution is meant: what lives in wood,
/// then the least support, then the first. Null when none is meant.
const Pest* find_pest(std::string_view text);

/// All pests that the text names, the one that find_pest() returns first.
std::vector<const Pest*> all_pests_in(std::string_view text);

/// All names of a pest in all languages, as written in the table of names.
std::vector<std::string_view> names_of(const Pest& pest);

/// More than half as much again outside the usual range is worth a warning. Our own rule: the
/// optimum against ants is only twofold wide (Rust and others, 2002).
inline constexpr double far_outside = 1.5;

/// More than three times, or less than a third of, the usual strength is an error unless accepted.
/// Our own rule.
inline constexpr double error_outside = 3;

/// The season of a month (1 to 12) in a region (ISO 3166-1): spring begins in March north of the
/// tropics and in September south of them, as meteorologists count. None where the region lies in
/// the tropics or is not in our list.
std::optional<Season> season_of(unsigned month, std::string_view region);

std::string_view word(Support support);        ///< "yes"
std::string_view word(Provenance provenance);  ///< "found"
std::string_view word(Topic topic);            ///< "before"
std::string_view word(Preparation preparation);

}  // namespace gallipot::reference
