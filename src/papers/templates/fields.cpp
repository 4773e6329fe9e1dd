#include "papers/templates/fields.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "base/units/parse.hpp"

namespace gallipot::templates {

namespace {

std::string quoted(std::string_view text) {
    return "'" + std::string(text) + "'";
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

/// "0.33" rather than "0.33000000000000002".
std::string plain(double value) {
    return fmt::format("{:.6g}", value);
}

}  // namespace

Fields::Fields(const yaml::Node& node, std::string what, std::vector<std::string> known,
               diag::Diagnostics& out)
    : node_(node), what_(std::move(what)), out_(out) {
    if (node.kind != yaml::Kind::mapping) {
        out_.error("wrong-kind", node.place, fmt::format("{} is not a list of keys", what_),
                   fmt::format("give it keys: {}", joined(known)));
        return;
    }
    for (const auto& [key, value] : node.entries) {
        if (std::find(known.begin(), known.end(), key.text) != known.end()) continue;
        const auto near = diag::nearest(key.text, known);
        out_.error("unknown-key", key.place,
                   fmt::format("unknown key {} in {}", quoted(key.text), what_),
                   near.empty() ? fmt::format("use one of: {}", joined(known))
                                : fmt::format("did you mean {}?", quoted(near)));
    }
}

bool Fields::has(std::string_view key) const {
    return node_.find(key) != nullptr;
}

const yaml::Node* Fields::find(std::string_view key) const {
    return node_.find(key);
}

diag::Place Fields::place(std::string_view key) const {
    const auto* value = node_.find(key);
    return value != nullptr ? value->place : node_.place;
}

void Fields::error(std::string_view key, std::string code, std::string message, std::string hint) {
    out_.error(std::move(code), place(key), std::move(message), std::move(hint));
}

const yaml::Node* Fields::scalar(std::string_view key, bool required) {
    const auto* value = node_.find(key);
    if (value == nullptr) {
        if (required && node_.kind == yaml::Kind::mapping)
            out_.error("missing-key", node_.place, fmt::format("{} has no {}", what_, quoted(key)),
                       fmt::format("add '{}:' to it", key));
        return nullptr;
    }
    if (value->kind == yaml::Kind::scalar) return value;
    out_.error("wrong-kind", value->place, fmt::format("{} takes a single value", quoted(key)),
               "write one value after the colon");
    return nullptr;
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
    error(key, "wrong-value", fmt::format("{} is neither true nor false", quoted(value->text)),
          "write true or false");
    return absent;
}

int Fields::whole(std::string_view key, int least, int most, std::optional<int> absent) {
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return absent.value_or(least);
    const auto parsed = units::parse_whole(value->text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        error(key, problem->code, problem->message, problem->hint);
        return absent.value_or(least);
    }
    const int got = std::get<int>(parsed);
    if (got >= least && got <= most) return got;
    error(key, "out-of-range", fmt::format("{} is not between {} and {}", got, least, most),
          fmt::format("write a whole number from {} to {}", least, most));
    return absent.value_or(least);
}

double Fields::number(std::string_view key, double least, double most,
                      std::optional<double> absent) {
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return absent.value_or(least);
    const auto parsed = units::parse_number(value->text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        error(key, problem->code, problem->message, problem->hint);
        return absent.value_or(least);
    }
    const double got = std::get<double>(parsed);
    if (got >= least && got <= most) return got;
    error(key, "out-of-range",
          fmt::format("{} is not between {} and {}", value->text, plain(least), plain(most)),
          fmt::format("write a number from {} to {}", plain(least), plain(most)));
    return absent.value_or(least);
}

units::Length Fields::length(std::string_view key, units::Length least, units::Length most,
                             std::optional<units::Length> absent) {
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return absent.value_or(least);
    const auto parsed = units::parse_length(value->text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        error(key, problem->code, problem->message, problem->hint);
        return absent.value_or(least);
    }
    const auto got = std::get<units::Length>(parsed);
    // A hair of room: 10 mm read from text and 10 mm written in the program may differ in a bit.
    const double hair = 1e-9;
    if (got.si() >= least.si() - hair && got.si() <= most.si() + hair) return got;
    const auto low = plain(units::in_mm(least)), high = plain(units::in_mm(most));
    error(key, "out-of-range",
          fmt::format("{} is not between {} mm and {} mm", value->text, low, high),
          fmt::format("write a length from {} mm to {} mm", low, high));
    return absent.value_or(least);
}

units::Share Fields::share(std::string_view key, units::Share least, units::Share most,
                           std::optional<units::Share> absent) {
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return absent.value_or(least);
    const auto parsed = units::parse_share(value->text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        error(key, problem->code, problem->message, problem->hint);
        return absent.value_or(least);
    }
    const auto got = std::get<units::Share>(parsed);
    if (got >= least && got <= most) return got;
    const auto low = plain(least.in_percent()), high = plain(most.in_percent());
    error(key, "out-of-range",
          fmt::format("{} is not between {} % and {} %", value->text, low, high),
          fmt::format("write a share from {} % to {} %", low, high));
    return absent.value_or(least);
}

double Fields::points(std::string_view key, double least, double most,
                      std::optional<double> absent) {
    const auto* value = scalar(key, !absent);
    if (value == nullptr) return absent.value_or(least);
    const auto hint = fmt::format("write a type size from {} pt to {} pt, like {} pt", plain(least),
                                  plain(most), plain(least));
    std::string_view text = value->text;
    const bool in_points = text.size() > 2 && text.substr(text.size() - 2) == "pt";
    if (in_points) text.remove_suffix(2);
    while (in_points && !text.empty() && text.back() == ' ') text.remove_suffix(1);
    const auto parsed = units::parse_number(text);
    const auto* got = std::get_if<double>(&parsed);
    if (in_points && got != nullptr && *got >= least && *got <= most) return *got;
    error(key, in_points && got != nullptr ? "out-of-range" : "bad-type-size",
          in_points && got != nullptr ? fmt::format("{} is not between {} pt and {} pt",
                                                    value->text, plain(least), plain(most))
                                      : fmt::format("{} is not a type size", quoted(value->text)),
          hint);
    return absent.value_or(least);
}

std::size_t Fields::word(const yaml::Node& node, std::string_view key,
                         const std::vector<std::string>& words) {
    const auto found = std::find(words.begin(), words.end(), node.text);
    if (node.kind == yaml::Kind::scalar && found != words.end())
        return static_cast<std::size_t>(found - words.begin());
    const auto near = diag::nearest(node.text, words);
    out_.error("unknown-word", node.place,
               fmt::format("{} is not known in {}", quoted(node.text), quoted(key)),
               near.empty() ? fmt::format("use one of: {}", joined(words))
                            : fmt::format("did you mean {}?", quoted(near)));
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
    const auto* value = node_.find(key);
    if (value != nullptr) return choices_of(*value, key, words, repeats);
    if (!optional) scalar(key, true);
    return {};
}

std::vector<diag::At<std::size_t>> Fields::choices_of(const yaml::Node& list, std::string_view key,
                                                      const std::vector<std::string>& words,
                                                      bool repeats) {
    std::vector<diag::At<std::size_t>> found;
    if (list.kind != yaml::Kind::sequence) {
        out_.error("wrong-kind", list.place, fmt::format("{} takes a list here", quoted(key)),
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
                       fmt::format("{} stands twice in {}", quoted(item.text), quoted(key)),
                       "take one of them out");
            continue;
        }
        found.push_back({index, item.place});
    }
    return found;
}

}  // namespace gallipot::templates
