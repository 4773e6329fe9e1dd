#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

/// Numbers that recipes write in words: "half a cup", "a quarter", "two thirds", "two and a half".
/// In English, as the keys of a job are. The first letter may be a capital.
namespace gallipot::units {

struct WordedNumber {
    double value = 0;
    std::size_t end = 0;  ///< the offset of what follows it
};

/// A fraction at `at`: "half", "a half", "one third", "three quarters". None where there is none.
std::optional<WordedNumber> fraction_words_at(std::string_view text, std::size_t at);

/// "one" to "twelve" at `at`.
std::optional<WordedNumber> whole_word_at(std::string_view text, std::size_t at);

/// "a" or "an" before a unit, which is one of it: "a week".
std::optional<WordedNumber> article_at(std::string_view text, std::size_t at);

/// Past the words between a fraction that ends at `at` and its unit: the " a" of "half a cup", the
/// " of a" of "1/2 of a cup". `at` itself where there are none.
std::size_t past_article(std::string_view text, std::size_t at);

/// Past an " and " at `at`, as in "1 and 1/2"; `at` itself where there is none.
std::size_t past_and(std::string_view text, std::size_t at);

/// The same as regular expressions (ECMA-262).
std::string fraction_words_pattern();
std::string whole_words_pattern();
extern const std::string_view article_pattern;
extern const std::string_view past_article_pattern;  ///< may match nothing
extern const std::string_view past_and_pattern;

}  // namespace gallipot::units
