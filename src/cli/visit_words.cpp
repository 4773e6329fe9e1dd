#include "cli/visit_words.hpp"

#include <array>
#include <chrono>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <vector>

#include "base/diag/utf8.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::cli {
namespace {

std::string time_in_words(visit::LocalTime time) {
    constexpr std::array months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const auto day = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::year_month_day date{day};
    const std::chrono::hh_mm_ss clock{time - day};
    return fmt::format("{} {} {} {:02}:{:02}", static_cast<unsigned>(date.day()),
                       months.at(static_cast<unsigned>(date.month()) - 1),
                       static_cast<int>(date.year()), clock.hours().count(),
                       clock.minutes().count());
}

}  // namespace

std::string visit_in_words(const visit::Visit& visit) {
    std::vector<std::string> parts{log::print_target(visit), time_in_words(visit.time)};
    const auto count = [&](const std::optional<int>& number, const char* what) {
        if (number) parts.push_back(fmt::format("{} {}", *number, what));
    };
    if (!visit.by.empty()) parts.push_back(diag::printable(visit.by));
    count(visit.seen, "alive");
    count(visit.dead, "dead");
    count(visit.young, "young");
    count(visit.minutes, "min");
    count(visit.trap_nights, "trap nights");
    if (visit.feeding) parts.emplace_back(*visit.feeding ? "feeding" : "not feeding");
    if (visit.level_percent) parts.push_back(fmt::format("{} % left", *visit.level_percent));
    std::string states = log::print_states(visit.state);
    if (!states.empty()) parts.push_back(std::move(states));
    std::string line = fmt::format("{}", fmt::join(parts, ", "));
    if (const std::string did = log::print_dids(visit.did); !did.empty()) line += "; " + did;
    if (!visit.note.empty()) line += ". Note: " + diag::printable_lines(visit.note);
    return line;
}

}  // namespace gallipot::cli
