#include "cli/day_option.hpp"

#include <CLI/CLI.hpp>

#include "tracking/log/zone.hpp"

namespace gallipot::cli {

std::optional<job::Date> read_day(const std::string& text) {
    constexpr std::size_t length = 10;
    if (text.size() != length) return std::nullopt;
    const auto noon = log::parse_time(text + " 12:00", log::Zone::of_machine());
    if (!noon) return std::nullopt;
    return job::Date{std::chrono::floor<std::chrono::days>(*noon)};
}

void add_day_option(CLI::App& command, std::optional<job::Date>& day, std::string what) {
    if (what.empty())
        what = "The day to go by, where stations change in the course of the job;\nleft out: today";
    command.add_option_function<std::string>(
        "--on",
        [&day](const std::string& text) {
            day = read_day(text);
            if (!day)
                throw CLI::ValidationError(
                    "--on", "'" + text + "' is not a day; write year-month-day, like 2027-03-18");
        },
        what);
}

}  // namespace gallipot::cli
