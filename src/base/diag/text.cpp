#include "base/diag/text.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/args.h>
#include <fmt/format.h>
#include <stdexcept>

namespace gallipot::diag {

namespace {

std::string filled(std::string_view pattern, const std::vector<std::string>& arguments) {
    fmt::dynamic_format_arg_store<fmt::format_context> given;
    for (const std::string& each : arguments) given.push_back(std::cref(each));
    return fmt::vformat({pattern.data(), pattern.size()}, given);
}

Text formatted(const Argument& argument, std::string_view specification) {
    return std::visit(
        [&](const auto& value) -> Text {
            if constexpr (std::is_same_v<std::decay_t<decltype(value)>, Text>)
                return value;
            else
                return fmt::format(fmt::runtime(fmt::format("{{{}}}", specification)), value);
        },
        argument);
}

}  // namespace

Text::Text(std::string_view pattern, std::vector<Text> arguments)
    : pattern_(pattern), arguments_(std::move(arguments)) {
    if (arguments_.empty()) {
        english_ = pattern_;
        return;
    }
    std::vector<std::string> words;
    for (const Text& each : arguments_) words.push_back(each.english_);
    try {
        english_ = filled(pattern_, words);
    } catch (const fmt::format_error& error) {
        throw std::logic_error("the message '" + pattern_ + "': " + error.what());
    }
}

std::string Text::in(const Translator& translator) const {
    if (pattern_.empty() || !translator) return english_;
    const std::string_view found = translator(pattern_);
    const std::string_view pattern = found.empty() ? std::string_view(pattern_) : found;
    if (arguments_.empty()) return std::string(pattern);
    std::vector<std::string> words;
    for (const Text& each : arguments_) words.push_back(each.in(translator));
    try {
        return filled(pattern, words);
    } catch (const fmt::format_error&) {
        return filled(pattern_, words);  // a user's own file may have other places
    }
}

Text term(std::string_view word) {
    return {word, std::vector<Text>()};
}

/// An argument that stands in two places has the format of the last.
Text compose(std::string_view pattern, const std::vector<Argument>& arguments) {
    std::vector<Text> texts(arguments.size());
    std::string plain;
    std::size_t next = 0;
    for (std::size_t at = 0; at < pattern.size(); ++at) {
        plain += pattern[at];
        if (pattern[at] == '}' || pattern[at] == '{') {
            if (pattern.substr(at + 1, 1) == pattern.substr(at, 1)) {
                plain += pattern[++at];  // a brace that stands for itself
                continue;
            }
            const std::size_t end = pattern.find('}', at);
            const std::string_view place = pattern.substr(at + 1, end - at - 1);
            const std::size_t colon = std::min(place.find(':'), place.size());
            const std::string_view number = place.substr(0, colon);
            std::size_t index = next++;
            std::from_chars(number.data(), number.data() + number.size(), index);
            texts.at(index) = formatted(arguments.at(index), place.substr(colon));
            plain.append(number).append("}");
            at = end;
        }
    }
    return {plain, std::move(texts)};
}

Text chained(const std::vector<Text>& parts, const char* pattern) {
    Text all;
    for (const Text& each : parts) all = all.empty() ? each : Text(pattern, {all, each});
    return all;
}

Text chained(const std::vector<std::string>& parts, const char* pattern) {
    return chained(std::vector<Text>(parts.begin(), parts.end()), pattern);
}

Text joined(const std::vector<Text>& parts, std::string_view between) {
    std::string pattern;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) pattern += between;
        pattern += "{}";
    }
    return {pattern, parts};
}

Text joined(const std::vector<std::string>& parts, std::string_view between) {
    return joined(std::vector<Text>(parts.begin(), parts.end()), between);
}

}  // namespace gallipot::diag
