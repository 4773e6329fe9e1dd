#include "app/report.hpp"

#include <filesystem>

#include "app/overflows.hpp"
#include "app/visit_log.hpp"
#include "base/system/error.hpp"
#include "papers/document/joins.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/pdf/writer.hpp"

namespace gallipot::app {
Evidence read_evidence(const Session& session, analysis::Day as_of) {
    const auto clock = zone_of(session).local(now());
    std::error_code ignored;
    if (!std::filesystem::exists(log::file_beside(session.file), ignored))
        return evidence::read(*session.job, session.plan, nullptr, clock, as_of);
    const log::Log visits = open_log(session, log::Opening::to_read);
    if (const auto damage = visits.damage()) throw system::SystemError{*damage};
    return evidence::read(*session.job, session.plan, &visits, clock, as_of);
}

std::optional<Evidence> read_evidence_if_any(const Session& session) {
    std::error_code ignored;
    if (!std::filesystem::exists(log::file_beside(session.file), ignored)) return std::nullopt;
    return read_evidence(session, analysis::day_of(zone_of(session).local(now())));
}

document::PlotSource plot_source(const job::Job& job, const Evidence& evidence,
                                 const text::Catalog& words) {
    return {job, evidence.sites, evidence.histories, evidence.report, words};
}

std::string report_pdf(Session& session, const Evidence& evidence, const text::Catalog& words,
                       const fonts::Faces& faces) {
    const job::Job& job = *session.job;
    document::Document document;
    document.title = document::headed(words, job.title->in(words.tag()), words("paper.report"));
    document.author = job.by ? (*job.by)->in(words.tag()) : "";
    document.language = words.tag();
    document.sheets = document::report_sheets(plot_source(job, evidence, words), session.plan,
                                              evidence.rounds, session.who);
    const auto style =
        *job.paper == job::Paper::letter ? layout::letter_style() : layout::a4_style();
    try {
        return pdf::write(layout::lay_out(document, style, faces), faces);
    } catch (const layout::LayoutError& error) {
        tell_overflows(error.overflows(), job, {}, session.found);
        return {};
    }
}

}  // namespace gallipot::app
