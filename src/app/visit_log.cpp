#include "app/visit_log.hpp"

namespace gallipot::app {

log::Zone zone_of(const Session& session) {
    if (session.job && session.job->time_zone)
        if (auto zone = log::Zone::find(**session.job->time_zone)) return *zone;
    return log::Zone::of_machine();
}

log::Instant now() {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

log::Log open_log(const std::filesystem::path& job, log::Opening opening) {
    return log::Log(log::file_beside(job), opening);
}

}  // namespace gallipot::app
