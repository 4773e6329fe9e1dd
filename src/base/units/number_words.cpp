#include "base/units/number_words.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "base/strings/ascii.hpp"

namespace gallipot::units {

namespace {

struct FractionWords {
    std::string_view first, second;  ///< `first` may be empty
    int over, under;
};
constexpr std::array<FractionWords, 14> fractions = {{{"", "half", 1, 2},
                                                      {"a", "half", 1, 2},
                                                      {"one", "half", 1, 2},
                                                      {"a", "third", 1, 3},
                                                      {"one", "third", 1, 3},
                                                      {"two", "thirds", 2, 3},
                                                      {"", "quarter", 1, 4},
                                                      {"a", "quarter", 1, 4},
                                                      {"one", "quarter", 1, 4},
                                                      {"three", "quarters", 3, 4},
                                                      {"an", "eighth", 1, 8},
                                                      {"one", "eighth", 1, 8},
                                                      {"three", "eighths", 3, 8},
                                                      {"five", "eighths", 5, 8}}};

constexpr std::array<std::string_view, 12> wholes = {"one",  "two", "three",  "four",
                                                     "five", "six", "seven",  "eight",
                                                     "nine", "ten", "eleven", "twelve"};

constexpr std::size_t none = std::string_view::npos;

/// Where the word ends that stands at `at`; none where another one does.
std::size_t past_word(std::string_view text, std::size_t at, std::string_view word) {
    if (at > text.size() || text.size() - at < word.size()) return none;
    if (strings::to_lower(text[at]) != word[0]) return none;
    const std::size_t end = at + word.size();
    if (text.substr(at + 1, word.size() - 1) != word.substr(1)) return none;
    return end < text.size() && strings::is_letter(text[end]) ? none : end;
}

/// Past the blanks at `at`; none where no blank is.
std::size_t past_blanks(std::string_view text, std::size_t at) {
    if (at >= text.size() || text[at] != ' ') return none;
    const std::size_t end = text.find_first_not_of(' ', at);
    return end == none ? text.size() : end;
}

/// Past "a" or "an" where something stands behind its blank; none elsewhere.
std::size_t past_article_word(std::string_view text, std::size_t at) {
    for (const std::string_view word : {"an", "a"}) {
        const std::size_t end = past_word(text, at, word);
        if (end == none) continue;
        const std::size_t next = past_blanks(text, end);
        if (next != none && next < text.size()) return end;
    }
    return none;
}

/// "half" as "[Hh]alf".
std::string either_case(std::string_view word) {
    return fmt::format("[{}{}]{}", strings::to_upper(word[0]), word[0], word.substr(1));
}

}  // namespace

std::optional<WordedNumber> fraction_words_at(std::string_view text, std::size_t at) {
    for (const FractionWords& it : fractions) {
        std::size_t second = at;
        if (!it.first.empty()) {
            const std::size_t end = past_word(text, at, it.first);
            if (end == none) continue;
            const bool hyphen = end < text.size() && text[end] == '-';
            second = hyphen ? end + 1 : past_blanks(text, end);
            if (second == none) continue;
        }
        const std::size_t end = past_word(text, second, it.second);
        if (end != none) return WordedNumber{static_cast<double>(it.over) / it.under, end};
    }
    return std::nullopt;
}

std::optional<WordedNumber> whole_word_at(std::string_view text, std::size_t at) {
    for (std::size_t i = 0; i < wholes.size(); ++i) {
        const std::size_t end = past_word(text, at, wholes.at(i));
        if (end != none) return WordedNumber{static_cast<double>(i + 1), end};
    }
    return std::nullopt;
}

std::optional<WordedNumber> article_at(std::string_view text, std::size_t at) {
    const std::size_t end = past_article_word(text, at);
    if (end == none) return std::nullopt;
    return WordedNumber{1, end};
}

std::size_t past_article(std::string_view text, std::size_t at) {
    std::size_t word = past_blanks(text, at);
    if (word == none) return at;
    if (const std::size_t of = past_word(text, word, "of"); of != none) {
        word = past_blanks(text, of);
        if (word == none) return at;
    }
    const std::size_t end = past_article_word(text, word);
    return end == none ? at : end;
}

std::size_t past_and(std::string_view text, std::size_t at) {
    const std::size_t word = past_blanks(text, at);
    const std::size_t end = word == none ? none : past_word(text, word, "and");
    const std::size_t next = end == none ? none : past_blanks(text, end);
    return next == none ? at : next;
}

std::string fraction_words_pattern() {
    std::string all;
    for (const FractionWords& it : fractions) {
        if (!all.empty()) all += '|';
        if (!it.first.empty()) all += either_case(it.first) + "(?: +|-)";
        all += either_case(it.second);
    }
    return "(?:" + all + ")(?![A-Za-z])";
}

std::string whole_words_pattern() {
    std::string all;
    for (const std::string_view word : wholes) {
        if (!all.empty()) all += '|';
        all += either_case(word);
    }
    return "(?:" + all + ")(?![A-Za-z])";
}

const std::string_view article_pattern = "[Aa]n?(?= +[^ ])";
const std::string_view past_article_pattern = "(?: +(?:[Oo]f +)?[Aa]n?(?= +[^ ]))?";
const std::string_view past_and_pattern = " +[Aa]nd +";

}  // namespace gallipot::units
