#include "domain/job/date_spellings.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <tuple>

#include "base/strings/ascii.hpp"

namespace gallipot::job {

namespace {

using std::chrono::year_month_day;

constexpr std::array<std::string_view, 12> months = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

/// Runs of digits and of letters; what stands between them is left out.
std::vector<std::string_view> pieces(std::string_view text) {
    std::vector<std::string_view> all;
    const auto alike = [](char a, char b) {
        return (strings::is_digit(a) && strings::is_digit(b)) ||
               (strings::is_letter(a) && strings::is_letter(b));
    };
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at + 1;
        while (end < text.size() && alike(text[at], text[end])) ++end;
        if (strings::is_letter_or_digit(text[at])) all.push_back(text.substr(at, end - at));
        at = end;
    }
    return all;
}

bool digits(std::string_view piece, std::size_t least, std::size_t most) {
    return strings::is_digit(piece[0]) && piece.size() >= least && piece.size() <= most;
}

unsigned number(std::string_view piece) {
    unsigned value = 0;
    for (const char c : piece) value = 10 * value + static_cast<unsigned>(c - '0');
    return value;
}

/// 1 of "January" and of "Jan"; 0 of what is no month.
unsigned month_called(std::string_view word) {
    for (std::size_t i = 0; i < months.size(); ++i) {
        const bool three =
            word.size() == 3 && strings::same_letters(word, months.at(i).substr(0, 3));
        if (three || strings::same_letters(word, months.at(i))) return static_cast<unsigned>(i) + 1;
    }
    return 0;
}

/// The one character between the figures of "15.04.2027"; 0 where it is another or two differ.
char separator(std::string_view text) {
    char found = 0;
    for (const char c : text) {
        if (strings::is_digit(c)) continue;
        if ((found != 0 && c != found) || std::string_view("./- ").find(c) == std::string::npos)
            return 0;
        found = c;
    }
    return found;
}

void add(std::vector<year_month_day>& all, std::string_view year, unsigned month, unsigned day) {
    const year_month_day date{std::chrono::year(static_cast<int>(number(year))),
                              std::chrono::month(month), std::chrono::day(day)};
    if (date.ok() && std::find(all.begin(), all.end(), date) == all.end()) all.push_back(date);
}

bool ordinal_end(std::string_view word) {
    return word == "st" || word == "nd" || word == "rd" || word == "th";
}

}  // namespace

std::string_view month_name(unsigned month) {
    return months.at(month - 1);
}

std::vector<year_month_day> dates_meant(std::string_view text) {
    std::vector<std::string_view> parts = pieces(text);
    std::vector<year_month_day> all;
    constexpr std::size_t longest = 40;
    if (text.size() > longest) return all;
    std::erase_if(parts, ordinal_end);
    if (parts.size() != 3) return all;
    const auto& [a, b, c] = std::tie(parts[0], parts[1], parts[2]);
    if (digits(c, 4, 4) && digits(a, 1, 2) && month_called(b) != 0) {
        add(all, c, month_called(b), number(a));
    } else if (digits(c, 4, 4) && digits(b, 1, 2) && month_called(a) != 0) {
        add(all, c, month_called(a), number(b));
    } else if (separator(text) == 0 || text.size() != 10) {
        return all;
    } else if (digits(a, 4, 4) && digits(b, 2, 2) && digits(c, 2, 2)) {
        add(all, a, number(b), number(c));
    } else if (digits(a, 2, 2) && digits(b, 2, 2) && digits(c, 4, 4)) {
        add(all, c, number(b), number(a));
        add(all, c, number(a), number(b));
    }
    return all;
}

}  // namespace gallipot::job
