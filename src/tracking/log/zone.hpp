#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tracking/visit/visit.hpp"

/// The wall clock where the job is: a visit carries the time that a watch there shows, to the
/// minute, for that is what people write down and compare with the plan.
namespace gallipot::log {

using visit::LocalTime;
using Instant = std::chrono::sys_seconds;

/// A time zone. May be shared between threads.
class Zone {
  public:
    /// By its IANA name ("Australia/Sydney"); none when there is no such zone.
    static std::optional<Zone> find(const std::string& name);
    /// Every name there is, for a near spelling.
    static std::vector<std::string> names();
    /// The one this machine is set to (environment variable TZ, else the system's own). For the
    /// command line only: everything below it is given a zone.
    static Zone of_machine();

    [[nodiscard]] std::string name() const;
    [[nodiscard]] LocalTime local(Instant instant) const;

    /// When clocks go forward they skip some times, when they go back they show some twice.
    enum class Shown { once, never, twice };
    [[nodiscard]] Shown shown(LocalTime time) const;
    /// What the clocks show instead of a time that they never show: as much later as they skip.
    [[nodiscard]] LocalTime instead_of(LocalTime time) const;

  private:
    struct Impl;
    explicit Zone(std::shared_ptr<const Impl> impl);
    /// How far the clocks are ahead of UTC a day before a time and a day after.
    [[nodiscard]] std::pair<std::chrono::minutes, std::chrono::minutes> ahead_around(
        LocalTime time) const;
    std::shared_ptr<const Impl> impl_;
};

/// "2027-03-18 08:05", as the CSV and the database write it.
std::string print_time(LocalTime time);

/// What print_time writes, or ISO 8601 with "T", seconds (dropped) and an offset ("Z", "+11:00",
/// then turned into the zone's wall clock). None for anything else, or a day or an hour that does
/// not exist.
std::optional<LocalTime> parse_time(std::string_view text, const Zone& zone);

}  // namespace gallipot::log
