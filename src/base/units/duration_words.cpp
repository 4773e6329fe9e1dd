#include "base/units/duration_words.hpp"

#include <fmt/format.h>
#include <string_view>

namespace gallipot::units {

std::string days_in_words(double days) {
    constexpr double hours_a_day = 24, minutes_an_hour = 60;
    const double hours = days * hours_a_day;
    const auto counted = [](double number, std::string_view unit) {
        const std::string figure =
            number < 100 ? fmt::format("{:.3g}", number) : fmt::format("{:.0f}", number);
        return fmt::format("{} {}{}", figure, unit, figure == "1" ? "" : "s");
    };
    // What would be shown as a whole one is one.
    constexpr double nearly = 0.9995;
    if (days >= nearly) return counted(days, "day");
    if (hours >= nearly) return counted(hours, "hour");
    return counted(hours * minutes_an_hour, "minute");
}

}  // namespace gallipot::units
