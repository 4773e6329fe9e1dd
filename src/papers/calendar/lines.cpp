#include "papers/calendar/lines.hpp"

#include <fmt/format.h>

namespace gallipot::calendar {

std::string line(std::string_view content) {
    constexpr std::size_t maximum = 75;
    std::string folded;
    std::size_t used = 0;  // octets of the line in hand
    for (std::size_t i = 0; i < content.size();) {
        std::size_t next = i + 1;
        while (next < content.size() && (static_cast<unsigned char>(content[next]) & 0xC0) == 0x80)
            ++next;
        if (used + (next - i) > maximum) {
            folded += "\r\n ";
            used = 1;
        }
        folded += content.substr(i, next - i);
        used += next - i;
        i = next;
    }
    return folded + "\r\n";
}

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\' || c == ';' || c == ',') out += '\\';
        if (c == '\n')
            out += "\\n";
        else
            out += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    }
    return out;
}

std::string date_time(std::chrono::local_seconds time) {
    const auto day = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::year_month_day date{day};
    const std::chrono::hh_mm_ss clock{time - day};
    return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                       clock.hours().count(), clock.minutes().count(), clock.seconds().count());
}

std::string utc_offset(std::chrono::seconds offset) {
    const std::chrono::hh_mm_ss clock{offset};
    std::string text = fmt::format("{}{:02}{:02}", clock.is_negative() ? '-' : '+',
                                   clock.hours().count(), clock.minutes().count());
    if (clock.seconds().count() != 0) text += fmt::format("{:02}", clock.seconds().count());
    return text;
}

}  // namespace gallipot::calendar
