#include "app/visit_log.hpp"

#include "app/tables.hpp"
#include "base/system/error.hpp"
#include "base/system/files.hpp"
#include "domain/job/reader.hpp"

namespace gallipot::app {

log::Zone zone_of(const Session& session) {
    if (session.job && session.job->time_zone)
        if (auto zone = log::Zone::find(**session.job->time_zone)) return *zone;
    return log::Zone::of_machine();
}

log::Instant now() {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

namespace {

std::map<std::string, std::string> old_names(const job::Job& job) {
    std::map<std::string, std::string> names;
    for (std::size_t i = 0; i < job.stations.size() + job.retired.size(); ++i) {
        const job::Station& station = job.station_at(i);
        for (const auto& older : station.was) names.emplace(*older, *station.id);
    }
    return names;
}

}  // namespace

log::Log open_log(const Session& session, log::Opening opening) {
    log::Log visits(log::file_beside(session.file), opening);
    if (session.job) visits.set_old_names(old_names(*session.job));
    return visits;
}

log::Log open_log(const std::filesystem::path& job, log::Opening opening) {
    log::Log visits(log::file_beside(job), opening);
    try {
        diag::Diagnostics unheard;
        const auto source = std::make_shared<const diag::Source>(
            diag::Source{job.string(), system::read_named_file(job)});
        if (const auto read = job::read_job(source, unheard, tables_beside(job)))
            visits.set_old_names(old_names(*read));
    } catch (const system::Error&) {
        // The log is there to be read, whatever has become of the job.
    }
    return visits;
}

}  // namespace gallipot::app
