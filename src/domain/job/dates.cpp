#include "base/strings/dates.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string_view>

#include "base/strings/ascii.hpp"
#include "domain/job/date_spellings.hpp"
#include "domain/job/time_of_day.hpp"
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

/// What to write in place of a date in another spelling. Never a date that is not in it.
diag::Text date_hint(std::string_view text, std::string_view behind = "") {
    const auto meant = dates_meant(text);
    if (meant.size() == 1) return diag::say("write {}{}", strings::iso_date(meant.front()), behind);
    if (meant.size() == 2) {
        return diag::say("write the one that is meant: {}{} or {}{}", strings::iso_date(meant[0]),
                         behind, strings::iso_date(meant[1]), behind);
    }
    return diag::say("write it as year-month-day, with four, two and two digits");
}

/// The date that "2027-03-02" names, or an error about it.
std::optional<Date> checked_date(std::string_view text, const Node& node, ReadContext& context) {
    using namespace std::chrono;
    const int y = number_at(text, 0, 4);
    const auto m = static_cast<unsigned>(number_at(text, 5, 2));
    const auto d = static_cast<unsigned>(number_at(text, 8, 2));
    const auto wrong = [&](diag::Text why, diag::Text hint) -> std::optional<Date> {
        context.out.error("bad-date", node.place, diag::say("{} does not exist: {}", text, why),
                          std::move(hint));
        return {};
    };
    if (y < first_year || y > last_year) {
        context.out.error("bad-date", node.place,
                          diag::say("the year must be {} to {}, not {}", first_year, last_year, y),
                          "write the year that is meant");
        return {};
    }
    if (m < 1 || m > 12) {
        return wrong("there are 12 months", "write a month from 01 to 12 behind the year");
    }
    const year_month_day date{year{y}, month{m}, day{d}};
    if (date.ok()) return date;
    const auto last = static_cast<unsigned>((year{y} / month{m} / std::chrono::last).day());
    return wrong(diag::say("{} {} has {} days", diag::term(month_name(m)), y, last),
                 diag::say("write a day from 01 to {}", last));
}

constexpr std::size_t day_length = 10;  // of "2027-03-02"

/// What stands behind the blanks, the comma or the T after a date; empty where none of them is.
std::string_view time_behind(std::string_view text) {
    if (text.starts_with('T')) return text.substr(1);
    if (text.starts_with(',')) text.remove_prefix(1);
    if (!text.starts_with(' ')) return {};
    text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
    return text;
}

/// What to write in place of a date in another spelling, with a time or without.
diag::Text other_spelling(std::string_view text) {
    for (auto blank = text.rfind(' '); blank != std::string_view::npos && blank > 0;
         blank = text.rfind(' ', blank - 1)) {
        const auto time = read_time_of_day(text.substr(blank + 1));
        const auto* past = std::get_if<std::chrono::minutes>(&time);
        if (past == nullptr || dates_meant(text.substr(0, blank)).empty()) continue;
        const int all = static_cast<int>(past->count());
        return date_hint(text.substr(0, blank), fmt::format(" {:02}:{:02}", all / 60, all % 60));
    }
    return date_hint(text);
}

}  // namespace

std::optional<At<Date>> read_date(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    if (!looks_like(node.text, "9999-99-99")) {
        const bool with_time = node.text.size() > day_length &&
                               is_day_alone(node.text.substr(0, day_length)) &&
                               !time_behind(node.text.substr(day_length)).empty();
        context.out.error(
            "bad-date", node.place,
            diag::say("'{}' is not a date written year-month-day", node.text),
            with_time ? diag::say("write {}, without what follows it", node.text.substr(0, 10))
                      : date_hint(node.text));
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
    const auto wrong = [&](diag::Text message, diag::Text hint) -> std::optional<At<LocalTime>> {
        context.out.error("bad-time", node.place, std::move(message), std::move(hint));
        return {};
    };
    const std::string_view day = text.substr(0, std::min(text.size(), day_length));
    if (!is_day_alone(day)) {
        if (std::holds_alternative<std::chrono::minutes>(read_time_of_day(text)))
            return wrong(diag::say("'{}' has no date", text),
                         "write the day before it, as year-month-day");
        return wrong(diag::say("'{}' is not a date and time", text), other_spelling(text));
    }
    const std::string_view behind = text.substr(day.size());
    if (behind.empty()) {
        const auto date = checked_date(day, node, context);
        if (!date) return {};
        return At<LocalTime>{std::chrono::local_days(*date) + std::chrono::hours(12), node.place};
    }
    const std::string_view clock = time_behind(behind);
    if (clock.empty())
        return wrong(diag::say("'{}' is not a date and time", text),
                     "write a blank and the time behind the date, or the date alone");
    const auto date = checked_date(day, node, context);
    if (!date) return {};
    const bool longer = clock.size() > 5 && looks_like(clock.substr(0, 5), "99:99") &&
                        std::string_view(":.Z+-").find(clock[5]) != std::string_view::npos;
    if (longer) {
        return wrong(diag::say("'{}' is more than a date and time", text),
                     diag::say("write {}: {}; no seconds, no zone", key.name(),
                               text.substr(0, text.size() - clock.size() + 5)));
    }
    const auto time = read_time_of_day(clock);
    if (const auto* problem = std::get_if<NoTime>(&time))
        return wrong(problem->message, problem->hint);
    return At<LocalTime>{std::chrono::local_days(*date) + std::get<std::chrono::minutes>(time),
                         node.place};
}

}  // namespace gallipot::job
