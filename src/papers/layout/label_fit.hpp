#pragma once

#include <functional>
#include <variant>
#include <vector>

#include "papers/layout/label_arrangement.hpp"

namespace gallipot::layout {

/// The sizes a label is set in.
struct FitResult {
    Sizing sizing;
    bool preferred = false;  ///< all of it at the design's easy sizes or above
};

/// Running words smaller than this are a strain to read: `check` warns of them. Ours; a label of
/// the EU's may be smaller still (safety/type_sizes.hpp).
constexpr double readable_points = 8;
/// Published statements are left out only where not even the shortest of all else could be set in
/// type this large. Ours: below it a label is read by nobody, and what it leaves out stands on the
/// household sheet.
constexpr double statement_points = 7;

/// The bounds of a search, from the design, the rules and the printer.
struct Bounds {
    Sizing minimum, preferred, maximum;  ///< `step` unused
    int steps = 1;
    int before_home = 1;  ///< the first so many say where it belongs, and what its code is for
    int whole = 1;        ///< the first so many steps leave out no published statement
    /// How many of these come before days or ingredients are cut to the least, one entry for each
    /// such loss; at last all of them.
    std::vector<int> before_loss{1};
    int places = 1;
    RunOn densest = RunOn::bare;  ///< no denser than this; a lid keeps its frame
    double dots_per_mm = 0;       ///< modules are whole dots; 0: any size
};
Bounds bounds(const Canvas& canvas, const Contents& contents);
/// Within all of these, for labels that are set alike.
Bounds together(const std::vector<Bounds>& each);

/// What a sizing lacks, of one label or of several set alike.
using Trial = std::function<Shortfall(const Sizing&)>;

/// Looks for the best way a label fits, each time in the first place for the code that lets it:
///
/// 1. at the easy sizes with as much text as goes, without leaving out a published statement, the
///    days of making and placing or an ingredient: a part a line, else run on; then the same where
///    type is `readable_points`;
/// 2. all but the statements as short as it gets, run on, as large as goes down to
///    `statement_points`: if possible with those days and all ingredients;
/// 3. in that size, without one statement after another; with a frame round what to do when
///    swallowed, else without; only then without where it belongs and what its code is for;
/// 4. the shortest text as large as it goes.
///
/// Then type, code and pictograms grow, in this order, all to their easy sizes before one grows
/// further. When not even the shortest texts fit at the least sizes: what is missing.
std::variant<FitResult, Shortfall> fit(const Trial& trial, const Bounds& bounds);
/// Whether the shortest texts fit at the least sizes.
bool fits_at_least(const Trial& trial, const Bounds& bounds);

}  // namespace gallipot::layout
