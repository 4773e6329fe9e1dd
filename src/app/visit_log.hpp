#pragma once

#include <filesystem>

#include "app/session.hpp"
#include "tracking/log/log.hpp"

/// The visit log beside a job, and the clock it goes by.
namespace gallipot::app {

/// The job's own time zone, else this machine's.
log::Zone zone_of(const Session& session);

/// The time on the clock now.
log::Instant now();

/// The log beside the job. Throws system::SystemError.
log::Log open_log(const std::filesystem::path& job, log::Opening opening);

}  // namespace gallipot::app
