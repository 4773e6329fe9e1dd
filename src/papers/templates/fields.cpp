#include "papers/templates/fields.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "base/strings/ascii.hpp"
#include "base/units/parse.hpp"

namespace gallipot::templates {

namespace {

std::string quoted(std::string_view text) {
    return "'" + std::string(text) + "'";
}

/// "0.33" rather than "0.33000000000000002".
std::string plain(double value) {
    return fmt::format("{:.6g}", value);
}

}  // namespace

Fields::Fields(const yaml::Node& node, diag::Text who, const std::vector<std::string>& known,
               diag::Diagnostics& out)
    : mapping_(node, std::move(who), known, "", out), out_(out) {}

diag::Place Fields::place(std::string_view key) const {
    const auto* value = find(key);
    return value != nullptr ? value->place : mapping_.node().place;
}

void Fields::error(std::string_view key, std::string code, diag::Text message, diag::Text hint) {
    out_.error(std::move(code), place(key), std::move(message), std::move(hint));
}

const yaml::Node* Fields::scalar(std::string_view key, bool required) {
    const auto* value =
        required ? mapping_.require(key, diag::say("add '{}:' to it", key)) : mapping_.find(key);
    if (value == nullptr) return nullptr;
    const bool good = yaml::is_scalar(*value, quoted(key), "a single value",
                                      "write one value after the colon", out_);
    return good ? value : nullptr;
}

template <class Q, class Parse, class InUnit>
Q Fields::bounded(std::string_view key, Q minimum, Q maximum, const std::optional<Q>& absent,
                  Parse parse, InUnit in_unit, const char* what, std::string_view unit) {
    const Q otherwise = absent.value_or(minimum);
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return otherwise;
    const units::Parsed<Q> parsed = parse(value->text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        error(key, problem->code, problem->message, problem->hint);
        return otherwise;
    }
    const Q got = std::get<Q>(parsed);
    // A hair of room: 10 mm read from text and 10 mm written in the program may differ in a bit.
    constexpr double hair = 1e-6;
    if (in_unit(got) >= in_unit(minimum) - hair && in_unit(got) <= in_unit(maximum) + hair)
        return got;
    const auto low = plain(in_unit(minimum)), high = plain(in_unit(maximum));
    error(key, "out-of-range",
          diag::say("{} is not between {}{} and {}{}", value->text, low, unit, high, unit),
          diag::say("write {} from {}{} to {}{}", diag::Text(what), low, unit, high, unit));
    return otherwise;
}

std::string Fields::text(std::string_view key, const std::optional<std::string>& absent) {
    const auto* value = scalar(key, !absent);
    return value != nullptr ? value->text : absent.value_or("");
}

bool Fields::flag(std::string_view key, bool absent) {
    const auto* value = scalar(key, false);
    if (value == nullptr) return absent;
    if (!value->quoted && (value->text == "true" || value->text == "false"))
        return value->text == "true";
    error(key, "wrong-value", diag::say("{} is neither true nor false", quoted(value->text)),
          "write true or false");
    return absent;
}

int Fields::whole(std::string_view key, int minimum, int maximum, std::optional<int> absent) {
    return bounded(
        key, minimum, maximum, absent, units::parse_whole,
        [](int number) { return static_cast<double>(number); }, "a whole number", "");
}

double Fields::number(std::string_view key, double minimum, double maximum,
                      std::optional<double> absent) {
    return bounded(
        key, minimum, maximum, absent,
        [](std::string_view text) { return units::parse_number(text); },
        [](double number) { return number; }, "a number", "");
}

units::Length Fields::length(std::string_view key, units::Length minimum, units::Length maximum,
                             std::optional<units::Length> absent) {
    return bounded(key, minimum, maximum, absent, units::parse_length, units::in_mm, "a length",
                   " mm");
}

units::Share Fields::share(std::string_view key, units::Share minimum, units::Share maximum,
                           std::optional<units::Share> absent) {
    return bounded(
        key, minimum, maximum, absent, units::parse_share,
        [](units::Share share) { return share.in_percent(); }, "a share", " %");
}

double Fields::points(std::string_view key, double minimum, double maximum,
                      std::optional<double> absent) {
    const auto parse = [](std::string_view text) -> units::Parsed<double> {
        const bool in_points = text.ends_with("pt");
        if (in_points) {
            const auto parsed =
                units::parse_number(strings::trimmed(text.substr(0, text.size() - 2)));
            if (std::holds_alternative<double>(parsed)) return parsed;
        }
        units::Problem problem;
        problem.code = "bad-type-size";
        problem.message = diag::say("{} is not a type size", quoted(text));
        problem.hint = "write a type size in points, like 8 pt";
        return problem;
    };
    return bounded(
        key, minimum, maximum, absent, parse, [](double size) { return size; }, "a type size",
        " pt");
}

std::size_t Fields::word(const yaml::Node& node, std::string_view key,
                         const std::vector<std::string>& words) {
    const auto found = std::find(words.begin(), words.end(), node.text);
    if (node.kind == yaml::Kind::scalar && found != words.end())
        return static_cast<std::size_t>(found - words.begin());
    out_.error("unknown-word", node.place,
               diag::say("{} is not known in {}", quoted(node.text), quoted(key)),
               yaml::did_you_mean(node.text, words,
                                  diag::say("use one of: {}", fmt::join(words, ", ")), out_));
    return words.size();
}

std::size_t Fields::choice(std::string_view key, const std::vector<std::string>& words,
                           std::optional<std::size_t> absent) {
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return absent.value_or(0);
    const auto found = word(*value, key, words);
    return found < words.size() ? found : absent.value_or(0);
}

std::vector<diag::At<std::size_t>> Fields::choices(std::string_view key,
                                                   const std::vector<std::string>& words,
                                                   bool repeats, bool optional) {
    const auto* value = mapping_.find(key);
    if (value != nullptr) return choices_of(*value, key, words, repeats);
    if (!optional) scalar(key, true);
    return {};
}

std::vector<diag::At<std::size_t>> Fields::choices_of(const yaml::Node& list, std::string_view key,
                                                      const std::vector<std::string>& words,
                                                      bool repeats) {
    std::vector<diag::At<std::size_t>> found;
    if (list.kind != yaml::Kind::sequence) {
        out_.error("wrong-kind", list.place, diag::say("{} takes a list here", quoted(key)),
                   "write it in brackets: [a, b, c]");
        return found;
    }
    for (const auto& item : list.items) {
        const auto index = word(item, key, words);
        if (index == words.size()) continue;
        const bool twice = std::any_of(found.begin(), found.end(),
                                       [&](const auto& other) { return *other == index; });
        if (twice && !repeats) {
            out_.error("given-twice", item.place,
                       diag::say("{} stands twice in {}", quoted(item.text), quoted(key)),
                       "take one of them out");
            continue;
        }
        found.push_back({index, item.place});
    }
    return found;
}

}  // namespace gallipot::templates
