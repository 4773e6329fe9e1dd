#include "base/units/duration_words.hpp"

#include <fmt/format.h>

namespace gallipot::units {

using diag::say;

diag::Text days_in_words(double days) {
    constexpr double hours_a_day = 24, minutes_an_hour = 60;
    const double hours = days * hours_a_day;
    const auto figure = [](double number) {
        return number < 100 ? fmt::format("{:.3g}", number) : fmt::format("{:.0f}", number);
    };
    // What would be shown as a whole one is one.
    constexpr double nearly = 0.9995;
    if (days >= nearly) {
        const std::string number = figure(days);
        return number == "1" ? say("1 day") : say("{} days", number);
    }
    if (hours >= nearly) {
        const std::string number = figure(hours);
        return number == "1" ? say("1 hour") : say("{} hours", number);
    }
    const std::string number = figure(hours * minutes_an_hour);
    return number == "1" ? say("1 minute") : say("{} minutes", number);
}

}  // namespace gallipot::units
