#include "papers/text/date_breaks.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <unicode/dtfmtsym.h>

#include "papers/text/icu.hpp"

namespace gallipot::text {

namespace {

using Names = std::set<std::string, std::less<>>;

/// "March", "Mar": as they stand in a date and by themselves, without a full stop.
Names months_of(const std::string& language) {
    require_memory();
    UErrorCode status = U_ZERO_ERROR;
    const icu::DateFormatSymbols symbols(icu::Locale(language.c_str()), status);
    require(status, "reading the names of months");
    Names names;
    for (const auto context : {icu::DateFormatSymbols::FORMAT, icu::DateFormatSymbols::STANDALONE})
        for (const auto width :
             {icu::DateFormatSymbols::WIDE, icu::DateFormatSymbols::ABBREVIATED}) {
            std::int32_t count = 0;
            const icu::UnicodeString* months = symbols.getMonths(count, context, width);
            for (std::int32_t i = 0; months != nullptr && i < count; ++i) {
                std::string name = to_utf8(months[i]);
                if (name.ends_with('.')) name.pop_back();
                names.insert(std::move(name));
            }
        }
    return names;
}

const Names& months(const std::string& language) {
    thread_local std::map<std::string, Names> known;
    const auto found = known.find(language);
    return found != known.end() ? found->second
                                : known.emplace(language, months_of(language)).first->second;
}

std::string_view without_marks(std::string_view word) {
    // Round the whole date among text from right to left.
    constexpr std::string_view isolate = "\u2068", other = "\u2067", end = "\u2069";
    while (word.starts_with(isolate) || word.starts_with(other))
        word.remove_prefix(isolate.size());
    while (word.ends_with(end)) word.remove_suffix(end.size());
    while (!word.empty() && std::string_view(".,:;)(").find(word.back()) != std::string_view::npos)
        word.remove_suffix(1);
    return word;
}

bool is_number(std::string_view word, std::size_t least, std::size_t most) {
    return word.size() >= least && word.size() <= most &&
           std::ranges::all_of(word, [](char c) { return c >= '0' && c <= '9'; });
}

/// "2027年|3月|2日": no space parts a date in Chinese and Japanese.
bool parts_date_in_han(std::string_view before, std::string_view behind) {
    constexpr std::string_view year = "年", month = "月", day = "日";
    const auto ends = [&](auto... words) { return (before.ends_with(words) || ...); };
    const auto begins = [&](auto... words) { return (behind.starts_with(words) || ...); };
    return (is_number(before.substr(before.size() - 1), 1, 1) && begins(year, month, day)) ||
           (ends(year, month) && is_number(behind.substr(0, 1), 1, 1));
}

/// The words around a break.
struct Words {
    std::string_view text;
    std::size_t at;

    /// The word that ends before `end`, spaces left out; empty at the beginning.
    [[nodiscard]] std::string_view before(std::size_t end) const {
        while (end > 0 && text[end - 1] == ' ') --end;
        const auto space = end == 0 ? std::string_view::npos : text.rfind(' ', end - 1);
        const std::size_t begin = space == std::string_view::npos ? 0 : space + 1;
        return text.substr(begin, end - begin);
    }
    [[nodiscard]] std::string_view behind(std::size_t begin) const {
        while (begin < text.size() && text[begin] == ' ') ++begin;
        return text.substr(begin, text.find(' ', begin) - begin);
    }
};

}  // namespace

bool parts_date(std::string_view text, std::size_t offset, const std::string& language) {
    if (offset == 0 || offset >= text.size()) return false;
    if (parts_date_in_han(text.substr(0, offset), text.substr(offset))) return true;
    if (text[offset - 1] != ' ') return false;
    const Words words{text, offset};
    std::string_view left = words.before(offset), right = words.behind(offset);
    // What stands between day, month and year in some languages belongs to both.
    constexpr std::string_view particles[] = {"de", "р.", "р"};
    const auto is_particle = [&](std::string_view word) {
        return std::ranges::find(particles, word) != std::end(particles);
    };
    const auto offset_of = [&](std::string_view word) {
        return static_cast<std::size_t>(word.data() - text.data());
    };
    if (is_particle(left)) left = words.before(offset_of(left));
    if (is_particle(right)) {
        // "2027 р.": the year's own.
        if (is_number(without_marks(left), 4, 4) && right != "de") return true;
        right = words.behind(offset_of(right) + right.size());
    }
    const auto is_month = [&](std::string_view word) {
        return months(language).contains(without_marks(word));
    };
    const auto is_day = [](std::string_view word) { return is_number(without_marks(word), 1, 2); };
    const auto is_year = [](std::string_view word) { return is_number(without_marks(word), 4, 4); };
    if (is_day(left))
        return is_month(right) ||
               (left.ends_with(',') && is_year(right) && is_month(words.before(offset_of(left))));
    return (is_year(right) || is_day(right)) && is_month(left) && !left.ends_with(',');
}

}  // namespace gallipot::text
