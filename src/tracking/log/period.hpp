#pragma once

#include <optional>
#include <string>

#include "domain/plan/plan.hpp"
#include "tracking/log/zone.hpp"
#include "tracking/visit/visit.hpp"

/// Which times a visit of a job can have: a slip in a year, or a clock that was never set, would
/// turn what the counts say upside down.
namespace gallipot::log {

enum class TimeFault {
    none,
    too_early,  ///< more than a year before the first station was set out
    too_late    ///< more than a year after both the last one and the clock
};

/// What makes a time that a visit can have look like a slip of the date.
enum class DateDoubt {
    none,
    long_before,  ///< more than `baseline_days` before the station was set out
    bait_before   ///< it tells of bait, on a day before that on which there was any
};

/// A first count is made shortly before setting out. Our own rule: one that is older says little of
/// that day, and is more likely a slip in the month.
inline constexpr std::chrono::days baseline_days{14};

class Period {
  public:
    /// `clock` is what the machine takes for now. A year on either side leaves room for counts
    /// before the start and for a clock that is behind. A job without a date of placing has any
    /// time since 2000.
    Period(const plan::Plan& plan, LocalTime clock);

    [[nodiscard]] TimeFault fault(LocalTime time) const;
    /// Whether the clock can be right; if not it says nothing of what is past.
    [[nodiscard]] bool clock_can_be() const { return clock_can_be_; }
    /// Of a visit at a time without a fault. `placed` is then when the station was set out (of a
    /// control: the first of all).
    struct Doubt {
        DateDoubt kind = DateDoubt::none;
        LocalTime placed{};
        bool own = true;  ///< that of the station itself
    };
    [[nodiscard]] Doubt doubt(const plan::Station& station, const visit::Visit& visit) const;
    /// Later than now, a watch that goes five minutes fast allowed for.
    [[nodiscard]] bool is_to_come(LocalTime time) const;

    [[nodiscard]] LocalTime first() const { return first_; }
    [[nodiscard]] LocalTime last() const { return last_; }

  private:
    LocalTime clock_;
    LocalTime first_;
    LocalTime last_;
    std::optional<LocalTime> first_placed_;
    bool clock_can_be_ = false;
};

/// "2026-10-02 19:20 is 151 days before K1 was set out, on 2027-03-02", for messages.
std::string explain(const Period::Doubt& doubt, const visit::Visit& visit);

}  // namespace gallipot::log
