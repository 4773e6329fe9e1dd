#include "app/report.hpp"

#include <filesystem>

#include "app/overflows.hpp"
#include "app/visit_log.hpp"
#include "base/system/error.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/pdf/writer.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::app {
namespace {

std::vector<std::string> ids_of(const std::vector<analysis::Site>& sites) {
    std::vector<std::string> ids;
    ids.reserve(sites.size());
    for (const auto& site : sites) ids.push_back(site.id);
    return ids;
}

void read_visits(const Session& session, Evidence& evidence) {
    std::error_code ignored;
    if (!std::filesystem::exists(log::file_beside(session.file), ignored)) return;
    const log::Log visits = open_log(session, log::Opening::to_read);
    if (const auto damage = visits.damage()) throw system::SystemError{*damage};
    const log::Period period(session.plan, zone_of(session).local(now()));
    visits.each(
        log::Log::Which::active,
        [&](const log::Entry& entry) {
            if (period.fault(entry.visit.time) != log::TimeFault::none)
                evidence.histories.leave_out_impossible(entry.number);
            else if (!evidence.histories.add(entry.visit))
                evidence.histories.leave_out_after_end(entry.number);
            return true;
        },
        [&](const log::Unreadable& entry) {
            evidence.unreadable.push_back(entry);
            evidence.histories.leave_out_unreadable(entry.number);
        });
}

/// Stations that are in the log alone, as far as it is known what they were.
void add_sites_of_log(const Session& session, Evidence& evidence) {
    const auto unknown = evidence.histories.unknown_stations();  // a copy: adopting alters it
    for (const auto& [id, visits] : unknown) {
        auto site = analysis::site_of_log(id, evidence.histories.of_unknown(id), *session.job);
        if (!site) continue;
        evidence.sites.push_back(*std::move(site));
        evidence.histories.adopt(id);
    }
}

}  // namespace

Evidence read_evidence(const Session& session, analysis::Day as_of) {
    auto sites = analysis::sites(*session.job, session.plan);
    analysis::Histories histories(ids_of(sites));
    for (std::size_t i = 0; i < sites.size(); ++i)
        if (sites[i].until) histories.end(i, *sites[i].until);
    Evidence evidence{std::move(sites), std::move(histories), {}, {}, {}};
    read_visits(session, evidence);
    add_sites_of_log(session, evidence);
    evidence.report = analysis::report(evidence.sites, evidence.histories, as_of);
    evidence.rounds = analysis::rounds(evidence.report, session.plan.walk);
    return evidence;
}

std::string report_pdf(Session& session, const Evidence& evidence, const text::Catalog& words,
                       const fonts::Faces& faces) {
    const job::Job& job = *session.job;
    document::Document document;
    document.title = job.title->in(words.tag()) + ": " + words("paper.report");
    document.author = job.by ? (*job.by)->in(words.tag()) : "";
    document.language = words.tag();
    document.sheets = document::report_sheets(evidence.plot_source(job, words), session.plan,
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
