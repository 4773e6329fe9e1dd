#pragma once

#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/content.hpp"
#include "papers/document/report_plots.hpp"
#include "tracking/analysis/rounds.hpp"

namespace gallipot::document {

/// The report: how it goes, station by station, what to do next, the plots, what was used up, the
/// next visits (`walks`), and a page for whoever takes over.
std::vector<Sheet> report_sheets(const PlotSource& source, const plan::Plan& plan,
                                 const std::vector<analysis::Round>& walks,
                                 const safety::WhoToCall& who);

}  // namespace gallipot::document
