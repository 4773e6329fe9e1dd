#pragma once

#include <filesystem>

#include "cli/session.hpp"
#include "tracking/log/log.hpp"

/// What the commands on the visit log share.
namespace gallipot::command {

/// The job's own time zone, else this machine's.
log::Zone zone_of(const Session& session);

/// The time on the clock now.
log::Instant now();

/// The log beside the job; made when it is not there. Throws system::SystemError.
log::Log open_log(const std::filesystem::path& job, log::Check check = log::Check::none);

}  // namespace gallipot::command
