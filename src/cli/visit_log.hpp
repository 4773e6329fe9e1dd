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

/// The log beside the job. Throws system::SystemError.
log::Log open_log(const std::filesystem::path& job, log::Opening opening);

/// What --clear takes, for messages: "container, by, seen, ...".
std::string clearable_fields();

/// Warns of the first entries that cannot be read by their number, and of more.
class NamedUnreadable {
  public:
    explicit NamedUnreadable(Environment& environment) : environment_(environment) {}
    void operator()(const log::Unreadable& entry);
    [[nodiscard]] bool any() const { return count_ > 0; }

  private:
    Environment& environment_;
    std::size_t count_ = 0;
};

}  // namespace gallipot::command
