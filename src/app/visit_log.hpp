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

/// The log beside a job that was read: what was logged under an older name of a station is the
/// station's. Throws system::SystemError.
log::Log open_log(const Session& session, log::Opening opening);

/// The same beside a job file that was not read; one with errors, or that cannot be read, has no
/// older names. Throws system::SystemError.
log::Log open_log(const std::filesystem::path& job, log::Opening opening);

}  // namespace gallipot::app
