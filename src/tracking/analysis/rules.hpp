#pragma once

#include <cstddef>

/// Every threshold of the report, each in this one place. "Common practice" means that people who
/// bait for a living do so and nobody we know of has published it.
namespace gallipot::analysis::rules {

// -- What a count may claim -----------------------------------------------------------------

/// Claims are made where chance alone would bring as much in less than one case in twenty; of the
/// many stations against one pest, so that of what is claimed no more than that share is expected
/// to be false.
inline constexpr double false_claims = 0.05;

/// How wide counts scatter, where no place was counted often enough to tell: variance over mean, so
/// wide that a handful of counts carries only what is plain. Our own rule.
inline constexpr double assumed_dispersion = 6;

/// How wide they usually scatter, and how many degrees of freedom that knowledge is worth, where a
/// turn was picked from few counts. Our own rule.
inline constexpr double usual_dispersion = 3;
inline constexpr double usual_weight = 3;

/// From so many places on the fall of a pest is that of places drawn from many, which differ; of
/// fewer, it is that of these places. Our own rule: below it a variance between places is a guess.
inline constexpr std::size_t places_that_differ = 5;

/// A fall to this share of the first count is the least worth the name. Common practice, no source.
inline constexpr double halved = 0.5;

/// A rebound: at least twice the lowest count and at least five more, after it had halved, and more
/// than chance. Common practice, no source.
inline constexpr double rebound_factor = 2;
inline constexpr double rebound_more = 5;

/// After a fall by this share or more, and with no more than so many left (the mean of the last two
/// counts), a bait goes on past its eight weeks. Our own rule.
inline constexpr double fallen_far = 0.8;
inline constexpr double few_left = 5;

/// Counts whose mean stands for the last one in Abbott's formula, and the fewest there must be. Our
/// own rule: one count alone carries no figure.
inline constexpr std::size_t last_counts = 3;
inline constexpr std::size_t fewest_last_counts = 2;

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
