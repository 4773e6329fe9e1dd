#pragma once

#include "domain/job/job.hpp"
#include "papers/document/content.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"

/// The report's plots: counts above, the bait's level below, over days.
namespace gallipot::document {

/// What the plots are drawn from; all of one job, in the order of its sites.
struct PlotSource {
    const job::Job& job;
    const std::vector<analysis::Site>& sites;
    const analysis::Histories& histories;
    const analysis::Report& report;
    const text::Catalog& words;
};

/// One for every station that has a count or a level, those of one room together, those that were
/// taken up behind the others. Of more than `most`, so many, the worst first.
Plots report_plots(const PlotSource& source, std::size_t most);

/// What their marks and lines mean; only those that occur.
PlotKey report_plot_key(const PlotSource& source);

}  // namespace gallipot::document
