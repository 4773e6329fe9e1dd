#pragma once

#include "domain/plan/plan.hpp"
#include "tracking/log/zone.hpp"

/// Which times a visit of a job can have: a slip in a year, or a clock that was never set, would
/// turn what the counts say upside down.
namespace gallipot::log {

enum class TimeFault {
    none,
    too_early,  ///< more than a year before the first station was set out
    too_late    ///< more than a year after both the last one and the clock
};

class Period {
  public:
    /// `clock` is what the machine takes for now. A year on either side leaves room for counts
    /// before the start and for a clock that is behind. A job without a date of placing has any
    /// time since 2000.
    Period(const plan::Plan& plan, LocalTime clock);

    [[nodiscard]] TimeFault fault(LocalTime time) const;
    /// Whether the clock can be right; if not it says nothing of what is past.
    [[nodiscard]] bool clock_can_be() const { return clock_can_be_; }
    /// Later than now, a watch that goes five minutes fast allowed for.
    [[nodiscard]] bool is_to_come(LocalTime time) const;

    [[nodiscard]] LocalTime first() const { return first_; }
    [[nodiscard]] LocalTime last() const { return last_; }

  private:
    LocalTime clock_;
    LocalTime first_;
    LocalTime last_;
    bool clock_can_be_ = false;
};

}  // namespace gallipot::log
