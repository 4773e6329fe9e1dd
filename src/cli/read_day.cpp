#include "cli/read_day.hpp"

#include "tracking/log/zone.hpp"

namespace gallipot::cli {

std::optional<analysis::Day> read_day(const std::string& text) {
    constexpr std::size_t length = 10;
    if (text.size() != length) return std::nullopt;
    const auto noon = log::parse_time(text + " 12:00", log::Zone::of_machine());
    if (!noon) return std::nullopt;
    return analysis::day_of(*noon);
}

}  // namespace gallipot::cli
