#pragma once

#include <vector>

#include "domain/plan/plan.hpp"
#include "papers/document/report_plots.hpp"
#include "tracking/analysis/rounds.hpp"

/// The tables of the report, each of which keeps to a page or two however many stations there are.
namespace gallipot::document {

/// What it comes to at each of `which` (indices of the report's stations), and what to do there.
/// `with_notes`: the effect too, and all that must be said beside it.
Table to_do_table(const PlotSource& source, const plan::Plan& plan,
                  const std::vector<std::size_t>& which, bool with_notes);

/// The stations by verdict, the worst verdict first.
Table verdict_table(const PlotSource& source);

/// What is to be done on which day, each act with all the stations that it is for.
Table acts_table(const PlotSource& source, const std::vector<analysis::Round>& walks);

/// What must be said of single stations beside their figures; without rows where nothing must.
Table notes_table(const PlotSource& source, const plan::Plan& plan);

/// Every station's first and last count and what the bait does. `brief`: on one line each, with all
/// its counts as a small drawing, the effect and how it goes; else with change and level.
Table figures_table(const PlotSource& source, bool brief);

/// The floors with each station's mark for how it does; nothing where no station has a point.
void add_report_floors(const PlotSource& source, std::vector<Block>& blocks);

}  // namespace gallipot::document
