#include "domain/job/time_of_day.hpp"

#include <fmt/format.h>
#include <optional>

#include "base/strings/ascii.hpp"

namespace gallipot::job {

namespace {

using std::chrono::hours;
using std::chrono::minutes;

enum class Half { none, am, pm };

/// "6:00 p.m." taken apart, whatever the figures.
struct Written {
    std::string_view hour, minute;  ///< digits; no minute is empty
    Half half = Half::none;
};

/// Past at most two digits; null where there is none.
std::string_view take_digits(std::string_view& rest) {
    std::size_t end = 0;
    while (end < rest.size() && end < 2 && strings::is_digit(rest[end])) ++end;
    const std::string_view digits = rest.substr(0, end);
    rest.remove_prefix(end);
    return digits;
}

std::optional<Half> half_of_day(std::string_view text) {
    const std::string letters = strings::to_lower(text);
    if (letters.empty()) return Half::none;
    if (letters == "am" || letters == "a.m." || letters == "a.m") return Half::am;
    if (letters == "pm" || letters == "p.m." || letters == "p.m") return Half::pm;
    return std::nullopt;
}

std::optional<Written> taken_apart(std::string_view text) {
    Written written;
    written.hour = take_digits(text);
    if (written.hour.empty()) return std::nullopt;
    bool letter = false;
    if (!text.empty() && (text[0] == ':' || text[0] == '.' || text[0] == 'h')) {
        letter = text[0] == 'h';
        text.remove_prefix(1);
        written.minute = take_digits(text);
        if (written.minute.size() != 2) return std::nullopt;
    }
    const auto half = half_of_day(strings::trimmed(text));
    if (!half || (letter && *half != Half::none)) return std::nullopt;
    if (*half == Half::none && written.minute.empty()) return std::nullopt;
    written.half = *half;
    return written;
}

int number(std::string_view digits) {
    int value = 0;
    for (const char c : digits) value = 10 * value + (c - '0');
    return value;
}

std::string clock(int hour, int minute) {
    return fmt::format("{:02}:{:02}", hour, minute);
}

diag::Text whole_day() {
    return "write a time from 00:00 to 23:59";
}

}  // namespace

std::variant<minutes, NoTime> read_time_of_day(std::string_view text) {
    const std::string word = strings::to_lower(text);
    if (word == "noon") return minutes(hours(12));
    if (word == "midnight") {
        return NoTime{"midnight is the start of one day and the end of another",
                      "write 00:00 behind the day that begins then"};
    }
    const auto written = taken_apart(text);
    if (!written) return NoTime{diag::say("'{}' is no time of day", text), whole_day()};
    const int hour = number(written->hour), minute = number(written->minute);
    if (hour > 23 || minute > 59) {
        return NoTime{diag::say("{} is no time of day", text), whole_day()};
    }
    const minutes past_the_hour(minute);
    if (written->half == Half::none) {
        if (written->hour.size() == 2 || hour == 0) return hours(hour) + past_the_hour;
        return NoTime{diag::say("'{}' may be in the morning or the evening", text),
                      diag::say("write the time as {} for the morning, {} for the evening",
                                clock(hour, minute), clock(hour + 12, minute))};
    }
    const bool evening = written->half == Half::pm;
    if (hour == 0 || hour > 12) {
        return NoTime{diag::say("'{}' counts to 24 and to 12 at once", text),
                      diag::say("write the time as {}, without am or pm", clock(hour, minute))};
    }
    if (hour == 12 && minute == 0) {
        return NoTime{diag::say("'{}' is noon to some and midnight to others", text),
                      "write the time as 12:00 for noon, 00:00 for midnight"};
    }
    return hours(hour % 12 + (evening ? 12 : 0)) + past_the_hour;
}

}  // namespace gallipot::job
