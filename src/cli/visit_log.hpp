#pragma once

#include "app/visit_log.hpp"
#include "cli/command.hpp"
#include "tracking/log/log.hpp"

/// What the commands on the visit log share.
namespace gallipot::cli {

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

}  // namespace gallipot::cli
