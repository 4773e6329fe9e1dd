#pragma once

#include <string>
#include <vector>

#include "cli/terminal.hpp"
#include "papers/document/report_plots.hpp"
#include "tracking/analysis/rounds.hpp"

namespace gallipot::cli {

enum class Detail {
    summary,  ///< each pest, the stations by how they do, what to do on the next round
    all
};

/// The report for the terminal: each pest, a table with small plots, what to do at each station, the
/// next visits, what was used up.
std::string report_text(const document::PlotSource& source, const plan::Plan& plan,
                        const std::vector<analysis::Round>& walks, Detail detail,
                        const Terminal& terminal);

/// Figures as bars of eighths in a line, none as a dot, against `highest`; more than `most` are
/// drawn together as their means.
std::string small_plot(const std::vector<double>& figures, double highest,
                       std::size_t maximum = 24);

}  // namespace gallipot::cli
