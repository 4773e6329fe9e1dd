#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/session.hpp"
#include "papers/document/report_sheets.hpp"
#include "papers/fonts/fonts.hpp"
#include "tracking/evidence/evidence.hpp"

/// How a job is going, from its log.
namespace gallipot::app {

using evidence::Evidence;

/// For the plots and tables of the report.
document::PlotSource plot_source(const job::Job& job, const Evidence& evidence,
                                 const text::Catalog& words);

/// Reads the log beside the job; without one nobody has visited. Entries that cannot be read, or
/// whose time cannot be, are left out and named by the report. Throws system::SystemError where the
/// log cannot be read or is damaged.
Evidence read_evidence(const Session& session, analysis::Day as_of);

/// The same as of today; none where there is no log.
std::optional<Evidence> read_evidence_if_any(const Session& session);

/// The report as a PDF in the language of `words`. Empty where something does not fit, which is
/// then an error in session.found.
std::string report_pdf(Session& session, const Evidence& evidence, const text::Catalog& words,
                       const fonts::Faces& faces);

}  // namespace gallipot::app
