#pragma once

#include <concepts>
#include <fmt/core.h>
#include <functional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace gallipot::diag {

/// An English pattern ("'{}' is no date") in the reader's language; empty where there is none.
/// Places are {} in order, or {0}, {1} in an order of the language's own.
using Translator = std::function<std::string_view(std::string_view pattern)>;

/// What a message says: an English pattern and what is put into it, kept apart so that it can be
/// said in another language. What comes from the user's file is put in as it is.
///
///     say("'{}' is no date", word)        a pattern with what the user wrote
///     say("'{}' takes {}", key, "a number")   with words of ours
class Text {
  public:
    Text() = default;
    /// Words of ours, without places; braces stand for themselves.
    Text(const char* pattern) : pattern_(pattern), english_(pattern) {}
    /// Words of the user, names, codes, figures: the same in all languages.
    Text(std::string given) : english_(std::move(given)) {}
    Text(std::string_view given) : english_(given) {}
    /// A pattern of {fmt} with plain places, {} or {0}, for the arguments. Throws std::logic_error
    /// where it has others.
    Text(std::string_view pattern, std::vector<Text> arguments);

    [[nodiscard]] const std::string& english() const { return english_; }
    [[nodiscard]] bool empty() const { return english_.empty(); }
    /// In the translator's language, argument by argument; what it lacks stays English.
    [[nodiscard]] std::string in(const Translator& translator) const;

  private:
    std::string pattern_;  ///< empty: nothing to translate
    std::vector<Text> arguments_;
    std::string english_;
};

/// A word of ours that a table holds, so that it is translated too: "a volume".
Text term(std::string_view word);

/// What stands in one place of a pattern.
using Argument = std::variant<Text, double, long long, unsigned long long>;
template <class Value>
Argument argument(const Value& value) {
    if constexpr (std::floating_point<Value>)
        return static_cast<double>(value);
    else if constexpr (std::signed_integral<Value> && !std::same_as<Value, char>)
        return static_cast<long long>(value);
    else if constexpr (std::unsigned_integral<Value> && !std::same_as<Value, bool>)
        return static_cast<unsigned long long>(value);
    else if constexpr (std::convertible_to<Value, Text>)
        return Text(value);
    else
        return Text(fmt::vformat("{}", fmt::make_format_args(value)));
}
/// See say(). Throws std::logic_error where the places do not fit the arguments.
Text compose(std::string_view pattern, const std::vector<Argument>& arguments);

/// As fmt::format does, with texts among the arguments. The pattern that is kept, and translated,
/// has plain places: "{} mL" of "{:.3g} mL".
template <class... Values>
requires(sizeof...(Values) > 0) Text
    say(fmt::format_string<std::conditional_t<std::is_arithmetic_v<Values>, Values, std::string>...>
            pattern,
        const Values&... values) {
    const fmt::string_view words = pattern;
    return compose({words.data(), words.size()}, {argument(values)...});
}
inline Text say(const char* words) {
    return words;
}

/// The parts joined two by two with a pattern that is translated: "a or b or c" of "{} or {}".
Text chained(const std::vector<Text>& parts, const char* pattern);
Text chained(const std::vector<std::string>& parts, const char* pattern);

/// The parts one after another: "a, b, c".
Text joined(const std::vector<Text>& parts, std::string_view between);
Text joined(const std::vector<std::string>& parts, std::string_view between);

}  // namespace gallipot::diag
