#pragma once

#include <string>
#include <vector>

#include "app/session.hpp"
#include "papers/document/report_sheets.hpp"
#include "papers/fonts/fonts.hpp"
#include "tracking/analysis/report.hpp"
#include "tracking/analysis/rounds.hpp"
#include "tracking/log/log.hpp"

/// How a job is going, from its log.
namespace gallipot::app {

/// What the log says of a job on a day.
struct Evidence {
    std::vector<analysis::Site> sites;
    analysis::Histories histories;
    analysis::Report report;
    std::vector<analysis::Round> rounds;      ///< those to come, in walking order
    std::vector<log::Unreadable> unreadable;  ///< entries left out because they cannot be read

    [[nodiscard]] document::PlotSource plot_source(const job::Job& job,
                                                   const text::Catalog& words) const {
        return {job, sites, histories, report, words};
    }
};

/// Reads the log beside the job; without one nobody has visited. Entries that cannot be read, or
/// whose time cannot be, are left out and named by the report. Throws system::SystemError where the
/// log cannot be read or is damaged.
Evidence read_evidence(const Session& session, analysis::Day as_of);

/// The report as a PDF in the language of `words`. Empty where something does not fit, which is
/// then an error in session.found.
std::string report_pdf(Session& session, const Evidence& evidence, const text::Catalog& words,
                       const fonts::Faces& faces);

}  // namespace gallipot::app
