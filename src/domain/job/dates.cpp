#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <string_view>
#include <vector>

#include "base/strings/ascii.hpp"
#include "domain/job/values.hpp"

namespace gallipot::job {

namespace {

using yaml::Node;

constexpr int first_year = 2000;
constexpr int last_year = 2199;

/// Whether `text` looks like `pattern`, in which 9 stands for any digit.
bool looks_like(std::string_view text, std::string_view pattern) {
    return text.size() == pattern.size() &&
           std::equal(text.begin(), text.end(), pattern.begin(),
                      [](char c, char p) { return p == '9' ? strings::is_digit(c) : c == p; });
}

int number_at(std::string_view text, std::size_t at, std::size_t digits) {
    int value = 0;
    for (std::size_t i = at; i < at + digits; ++i) value = value * 10 + (text[i] - '0');
    return value;
}

constexpr std::array<std::string_view, 12> months = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

/// The date that "2027-03-02" names, or an error about it.
std::optional<Date> checked_date(std::string_view text, const Node& node, ReadContext& context) {
    using namespace std::chrono;
    const int y = number_at(text, 0, 4);
    const auto m = static_cast<unsigned>(number_at(text, 5, 2));
    const auto d = static_cast<unsigned>(number_at(text, 8, 2));
    const auto wrong = [&](std::string why, std::string hint) -> std::optional<Date> {
        context.out.error("bad-date", node.place, fmt::format("{} does not exist: {}", text, why),
                          std::move(hint));
        return {};
    };
    if (y < first_year || y > last_year) {
        context.out.error("bad-date", node.place, fmt::format("the year {} makes no sense here", y),
                          fmt::format("write a year from {} to {}", first_year, last_year));
        return {};
    }
    if (m < 1 || m > 12) {
        return wrong(
            "there are 12 months",
            d >= 1 && d <= 12 && m <= 31
                ? fmt::format("write {:04}-{:02}-{:02} if year, month, day are meant", y, d, m)
                : "write year-month-day, like 2027-03-02");
    }
    const year_month_day date{year{y}, month{m}, day{d}};
    if (date.ok()) return date;
    const auto last = static_cast<unsigned>((year{y} / month{m} / std::chrono::last).day());
    return wrong(fmt::format("{} {} has {} days", months.at(m - 1), y, last),
                 fmt::format("write a day from 01 to {}", last));
}

/// "2027-3-5", "15.04.2027" and "4/15/2027" as their three numbers; empty where it is not three.
std::vector<std::string_view> three_numbers(std::string_view text) {
    std::vector<std::string_view> numbers;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of("./-", begin), text.size());
        const std::string_view number = text.substr(begin, end - begin);
        if (number.empty() || number.size() > 4 || !std::ranges::all_of(number, strings::is_digit))
            return {};
        numbers.push_back(number);
        begin = end + 1;
    }
    return numbers.size() == 3 ? numbers : std::vector<std::string_view>{};
}

/// What to write for a date in another order. Where day and month could be either way round, both
/// are named; for what is no date at all, an example.
std::string iso_date_for(std::string_view text, const Key& key) {
    const auto numbers = three_numbers(text);
    if (numbers.empty()) return write_example(key);
    const auto at = [&](std::size_t i) { return number_at(numbers[i], 0, numbers[i].size()); };
    struct Reading {
        int year, month, day;
    };
    std::vector<Reading> readings;
    if (numbers[0].size() == 4) {
        readings = {{at(0), at(1), at(2)}};
    } else if (numbers[2].size() == 4) {
        readings = {{at(2), at(1), at(0)}};
        if (at(0) != at(1)) readings.push_back({at(2), at(0), at(1)});
    }
    std::vector<std::string> dates;
    for (const auto& [y, m, d] : readings) {
        const std::chrono::year_month_day date{std::chrono::year{y},
                                               std::chrono::month{static_cast<unsigned>(m)},
                                               std::chrono::day{static_cast<unsigned>(d)}};
        if (!date.ok() || y < first_year || y > last_year) continue;
        dates.push_back(fmt::format("{:04}-{:02}-{:02} if {} {} is meant", y, m, d, d,
                                    months.at(static_cast<std::size_t>(m - 1))));
    }
    if (dates.empty()) return write_example(key);
    return fmt::format("write {}", fmt::join(dates, ", or "));
}

}  // namespace

std::optional<At<Date>> read_date(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    if (!looks_like(node.text, "9999-99-99")) {
        context.out.error("bad-date", node.place,
                          fmt::format("'{}' is not a date written year-month-day", node.text),
                          iso_date_for(node.text, key));
        return {};
    }
    const auto date = checked_date(node.text, node, context);
    if (!date) return {};
    return At<Date>{*date, node.place};
}

bool is_day_alone(std::string_view text) {
    return looks_like(text, "9999-99-99");
}

std::optional<At<LocalTime>> read_time(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    const std::string_view text = node.text;
    const auto wrong = [&](std::string message, std::string hint) -> std::optional<At<LocalTime>> {
        context.out.error("bad-time", node.place, std::move(message), std::move(hint));
        return {};
    };
    if (is_day_alone(text)) {
        const auto day = checked_date(text, node, context);
        if (!day) return {};
        return At<LocalTime>{std::chrono::local_days(*day) + std::chrono::hours(12), node.place};
    }
    if (!looks_like(text, "9999-99-99 99:99") && !looks_like(text, "9999-99-99T99:99")) {
        const bool longer =
            text.size() > 16 && (looks_like(text.substr(0, 16), "9999-99-99 99:99") ||
                                 looks_like(text.substr(0, 16), "9999-99-99T99:99"));
        if (longer) {
            return wrong(
                fmt::format("'{}' is more than a date and time", text),
                fmt::format("write {}: {}; no seconds, no zone", key.name(), text.substr(0, 16)));
        }
        return wrong(fmt::format("'{}' is not a date and time", text), write_example(key));
    }
    const auto date = checked_date(text.substr(0, 10), node, context);
    if (!date) return {};
    const int hour = number_at(text, 11, 2);
    const int minute = number_at(text, 14, 2);
    if (hour > 23 || minute > 59) {
        return wrong(fmt::format("{} is no time of day", text.substr(11)),
                     "write a time from 00:00 to 23:59");
    }
    const LocalTime time =
        std::chrono::local_days(*date) + std::chrono::hours(hour) + std::chrono::minutes(minute);
    return At<LocalTime>{time, node.place};
}

}  // namespace gallipot::job
