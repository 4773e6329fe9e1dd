#include "cli/visit_log.hpp"

#include "cli/terminal.hpp"

namespace gallipot::command {

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

void NamedUnreadable::operator()(const log::Unreadable& entry) {
    constexpr std::size_t maximum_named = 10;
    if (++count_ <= maximum_named)
        warn(environment_) << "entry " << entry.number << " of the visit log cannot be read ("
                           << entry.column << "); it is left out\n";
    else if (count_ == maximum_named + 1)
        warn(environment_) << "more entries of the visit log cannot be read; they are left out\n";
}

}  // namespace gallipot::command
