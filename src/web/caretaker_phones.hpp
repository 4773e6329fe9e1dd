#pragma once

#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <string>

#include "tracking/keys/keys.hpp"
#include "tracking/log/log.hpp"
#include "web/message.hpp"

/// Which requests come from a phone of the caretaker: one that has opened the caretaker's code.
namespace gallipot::web {

/// A phone has a cookie "ID.MARK". Nobody makes the mark without the job's secret, and what the
/// phone shows is never the code itself. The log holds the ids, and which of them were ended. May
/// be shared between threads.
class CaretakerPhones {
  public:
    CaretakerPhones(log::Log& log, std::function<keys::Secret()> secret,
                    std::function<log::Instant()> now)
        : log_(log), secret_(std::move(secret)), now_(std::move(now)) {}

    /// The id of the caretaker's phone that sends this; none for everybody else. A phone that comes
    /// back for the first time is noted. Where the log cannot be read, what was known of it before
    /// holds.
    std::optional<std::string> phone_of(const Request& request);

    /// Makes the phone that gets `response` the caretaker's, under `id` if it has one already.
    void let_in(Response& response, const std::optional<std::string>& id, bool secure) const;

    /// The phone of that id is the caretaker's no more. Throws system::SystemError.
    void end(const std::string& id);

  private:
    /// The id of a cookie whose mark is right.
    [[nodiscard]] std::optional<std::string> proven_id(const Request& request) const;
    void note(const std::string& id, const Request& request);

    log::Log& log_;
    std::function<keys::Secret()> secret_;
    std::function<log::Instant()> now_;
    std::mutex mutex_;
    std::set<std::string> ended_;  ///< known to be so, whether the log can be read or not
};

}  // namespace gallipot::web
