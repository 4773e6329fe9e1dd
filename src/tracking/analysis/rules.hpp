#pragma once

/// Every threshold of the report, each in this one place. "Common practice" means that people who
/// bait for a living do so and nobody we know of has published it.
namespace gallipot::analysis::rules {

// -- What a count may claim -----------------------------------------------------------------

/// A fall or rise is claimed when its 95 % interval leaves out "no change". With fewer degrees of
/// freedom than this, or where the fit has none (all gone after the first count), the scatter
/// between counts is not known, and the first and last counts must differ by more than a coin would
/// bring with `coin_chance`. That is strict because pests come in clumps: where they scatter three
/// times as wide as by chance alone it is still wrong only about once in twenty (tests/bench).
inline constexpr int minimum_degrees = 3;
inline constexpr double coin_chance = 0.001;

/// A fall to this share of the first count is the least worth the name. Common practice, no source.
inline constexpr double halved = 0.5;

/// A rebound: at least twice the lowest count and at least five more, after it had halved.
/// Common practice, no source.
inline constexpr double rebound_factor = 2;
inline constexpr double rebound_more = 5;

// -- Days --------------------------------------------------------------------------------------

/// When a result should show where nobody has published it for the pest: two to three weeks.
/// Common practice, no source.
inline constexpr double usual_days_low = 14;
inline constexpr double usual_days_high = 21;

/// A bait is let work for eight weeks at most before somebody else is asked. University of Hawaii
/// CTAHR, Sugar Boric Acid Bait for Ants (2012): feeding for up to one or even two months.
inline constexpr int long_enough_days = 56;

/// None seen for this long: take it up, where the table of pests says nothing else. Our own rule.
inline constexpr int gone_days = 14;

/// Treated wood is called quiet once no new hole came for a year, which holds a whole flying
/// season. Our own rule: beetles come out one to five years after the eggs, mostly from April to
/// July.
inline constexpr int flying_season_days = 365;

/// How often a station that stands out is looked at once the planned visits are over. University
/// of Hawaii CTAHR, Sugar Boric Acid Bait for Ants (2012): check weekly.
inline constexpr int check_every_days = 7;

/// Counts of treated and control stations belong to one round when they are no further apart than
/// this, or than a quarter of the time between the two rounds compared. Our own rule.
inline constexpr int same_round_days = 3;

/// More at first is usual, for the bait draws them: within this time of placing a rise is no bad
/// sign. Common practice, no source.
inline constexpr double drawn_days = 3;

// -- Levels -----------------------------------------------------------------------------------

/// Standard error of a level read by eye, percent of a full container. Our own rule: people tell
/// tenths apart, hardly twentieths.
inline constexpr double reading_error = 5;

/// A level that rose by more than this with no filling noted was filled, or rained into: counting
/// what is eaten starts anew from there. Twice the reading error.
inline constexpr double risen = 10;

/// Whether they feed is looked at the next day; within so many days of placing, "none fed" asks for
/// another place or food. Urban Insect Pests (CABI): look the next day, move or change; the week is
/// our own rule.
inline constexpr double first_fed_days = 7;

/// So many visits with the same trouble (clogged, wet, spilt, moved, mouldy) and the place is at
/// fault, not the cup. Common practice, no source.
inline constexpr int repeats = 2;

}  // namespace gallipot::analysis::rules
