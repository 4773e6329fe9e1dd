#include "domain/job/values.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <initializer_list>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "base/units/duration_words.hpp"
#include "base/units/parse.hpp"
#include "domain/job/near_words.hpp"
#include "domain/yaml/mapping.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

bool blank(std::string_view text) {
    constexpr std::string_view no_break_space = "\u00A0";
    return text.starts_with(' ') || text.starts_with(no_break_space) || text.ends_with(' ') ||
           text.ends_with(no_break_space);
}

/// "0.5", "1000000": no exponent, no needless zeros.
std::string plain(double value) {
    std::string text = fmt::format("{:.6f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

/// A bound to be written: "60 mL", "1 hour". A longest time of days and hours in whole days.
diag::Text bound(double value, std::string_view unit) {
    if (unit != " d") return plain(value) + std::string(unit);
    return units::days_in_words(value < 1 ? value : std::floor(value));
}

/// Whether a value of the key says how much or how many: one that a message made up would make
/// another recipe, or the same in another size.
bool is_amount(const Key& key) {
    switch (key.type) {
        case Type::number:
        case Type::whole:
        case Type::volume:
        case Type::mass:
        case Type::length:
        case Type::area:
        case Type::duration:
        case Type::density:
        case Type::temperature:
        case Type::share:
        case Type::mass_or_volume:
        case Type::density_or_range:
        case Type::amount:
        case Type::limit:
        case Type::batch:
        case Type::openings:
            return true;
        default:
            return false;
    }
}

/// "'fill'", or "this" for what the user named.
diag::Text called(const Key& key) {
    return key.name() == "*" ? diag::say("this") : diag::say("'{}'", key.name());
}

bool within(double value, const Key& key, std::string_view unit, const Node& node,
            ReadContext& context) {
    // A hair's breadth for what was converted: 1 h is 1/24 d.
    constexpr double slack = 1e-12;
    const bool low = value < key.minimum - slack * std::abs(key.minimum);
    const bool high = value > key.maximum + slack * std::abs(key.maximum);
    if (!low && !high) return true;
    const diag::Text minimum = bound(key.minimum, unit), maximum = bound(key.maximum, unit);
    context.out.error(
        "out-of-bounds", node.place,
        diag::say("{} must be {} to {}, not {}", called(key), minimum, maximum, node.text),
        key.recipe() ? diag::say("look it up again where the recipe comes from")
        : low        ? diag::say("write {} or more", minimum)
                     : diag::say("write {} or less", maximum));
    return false;
}

/// Words of the user's own, for which no example of ours can stand.
bool is_free_text(const Key& key) {
    return key.type == Type::text || key.type == Type::local_text;
}

/// What the table says of it, up to the first pause, to go on a sentence with.
diag::Text description_in_sentence(const Key& key) {
    std::string text(key.description.substr(0, key.description.find_first_of(";:")));
    const bool capital_alone =
        text.size() > 1 && strings::is_upper(text[0]) && !strings::is_upper(text[1]);
    if (capital_alone) text[0] = strings::to_lower(text.substr(0, 1))[0];
    return diag::term(text);
}

/// A name made of what is written: "D-1" of "D 1". Empty where no letter or digit is left.
std::string as_id(std::string_view written, std::size_t longest) {
    std::string id;
    for (const char c : written) {
        if (strings::is_letter_or_digit(c)) {
            id += c;
        } else if (!id.empty() && id.back() != '-') {
            id += '-';
        }
    }
    while (!id.empty() && id.back() == '-') id.pop_back();
    return id.size() > longest ? std::string() : id;
}

/// A number in quotes is text, so a bare number must have none.
bool unquoted(const Node& node, ReadContext& context) {
    if (!node.quoted) return true;
    context.out.error("wrong-type", node.place,
                      diag::say("'{}' in quotes is a text, not a number", node.text),
                      diag::say("write {} without quotes", node.text));
    return false;
}

template <class Q>
std::optional<At<Q>> quantity(const units::Parsed<Q>& parsed, units::Dimension wanted,
                              double (*usual)(Q), const Node& node, const Key& key,
                              ReadContext& context) {
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        report(*problem, node, wanted, context);
        return {};
    }
    const Q value = std::get<Q>(parsed);
    const std::string unit = " " + std::string(units::usual_unit(wanted));
    if (!within(usual(value), key, unit, node, context)) return {};
    return At<Q>{value, node.place};
}

}  // namespace

std::string own_to_fill_in(std::string_view example) {
    constexpr std::size_t day = 10, day_and_time = 16;
    constexpr std::string_view region = "region: AU", phone = "phone: ";
    std::string shown(example);
    if (const auto at = shown.find(region); at != std::string::npos)
        shown.replace(at, region.size(), "region: ..");
    if (const auto at = shown.find(phone); at != std::string::npos) {
        const std::size_t number = at + phone.size();
        std::size_t end = std::min(shown.find_first_of(",}", number), shown.size());
        while (end > number && shown[end - 1] == ' ') --end;
        shown.replace(number, end - number, "..");
    }
    for (std::size_t at = 0; at + day <= shown.size(); ++at) {
        if (!is_day_alone(std::string_view(shown).substr(at, day))) continue;
        const bool time = at + day_and_time <= shown.size() && shown[at + day + 3] == ':';
        shown.replace(at, time ? day_and_time : day, "..");
    }
    return shown;
}

std::vector<std::string> quoted(std::vector<std::string> names) {
    for (std::string& each : names) each = "'" + each + "'";
    return names;
}

diag::Text write_example(const Key& key) {
    const std::string_view name = key.name();
    if (key.type == Type::date || key.type == Type::time)
        return diag::say("write {} behind {}:, as year-month-day", type_in_words(key), name);
    if (key.recipe() || (is_amount(key) && name != "*")) {
        return name == "*" ? diag::say("write {}", type_in_words(key))
                           : diag::say("write {} behind {}:", type_in_words(key), name);
    }
    const std::string example = own_to_fill_in(key.example);
    if (name == "*") return diag::say("write {}, like {}", type_in_words(key), example);
    // Nobody is to copy the manual's number.
    if (name == "phone" || name == "emergency")
        return diag::say("write the number to ring behind {}:, once you have looked it up", name);
    if (is_free_text(key))
        return diag::say("write behind {}: {}", name, description_in_sentence(key));
    return diag::say("write {}: {}", name, example);
}

diag::Text add_example(const Key& key) {
    // Nobody is to copy the manual's number onto a poison-centre line.
    if (key.name() == "phone")
        return "add phone: with the number to ring, once you have looked it up";
    if (key.type == Type::date || key.type == Type::time)
        return diag::say("add {}: with {}, as year-month-day", key.name(), type_in_words(key));
    if (key.name() == "region") return "add region: with your country's ISO 3166-1 code";
    if (key.recipe() || is_amount(key))
        return diag::say("add {}: with {}", key.name(), type_in_words(key));
    if (key.type == Type::choice || key.type == Type::id)
        return diag::say("add {}: with {}", key.name(), type_in_words(key));
    if (is_free_text(key))
        return diag::say("add {}: with {}", key.name(), description_in_sentence(key));
    return diag::say("add {}: {}", key.name(), own_to_fill_in(key.example));
}

diag::Text did_you_mean(std::string_view word, const std::vector<std::string>& known,
                        diag::Text otherwise, const ReadContext& context) {
    if (const std::string begun = name_begun(strings::trimmed(word), known); !begun.empty())
        return diag::say("did you mean '{}'?", begun);
    return yaml::did_you_mean(word, known, std::move(otherwise), context.out);
}

diag::Text substance_meant(std::string_view word, const std::vector<std::string>& known,
                           diag::Text otherwise) {
    std::string near = name_begun(strings::trimmed(word), known);
    if (near.empty()) near = diag::nearest(word, known, 1);
    return near.empty() ? std::move(otherwise) : diag::say("did you mean '{}'?", near);
}

bool is_scalar(const Node& node, const Key& key, ReadContext& context) {
    if (node.kind == Kind::scalar) return true;
    return yaml::is_scalar(node, called(key), type_in_words(key), write_example(key), context.out);
}

void report(const units::Problem& problem, const Node& node, units::Dimension wanted,
            ReadContext& context) {
    diag::Text hint = problem.hint;
    if (!problem.unit.empty()) {
        const std::string near = diag::nearest(problem.unit, units::unit_names(wanted));
        if (!near.empty()) hint = diag::say("did you mean '{} {}'?", problem.number, near);
    }
    context.out.error(problem.code, node.place, problem.message, hint);
}

std::optional<At<std::string>> read_text(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    const std::string& text = node.text;
    if (strings::trimmed(text).empty()) {
        context.out.error("empty-value", node.place, diag::say("{} is empty", called(key)),
                          write_example(key));
        return {};
    }
    if (text.find_first_of("\n\t") != std::string::npos) {
        context.out.error("line-break", node.place, "a line break or tab in a text of one line",
                          "write it on one line, without | or >");
        return {};
    }
    if (blank(text)) {
        context.out.error("blank-edge", node.place, "a blank at the start or end of a text",
                          diag::say("write '{}'", strings::trimmed(text)));
        return {};
    }
    const auto length = static_cast<double>(diag::count_characters(text));
    if (length < key.minimum || length > key.maximum) {
        const diag::Text has = length == 1 ? diag::say("{} has 1 character", called(key))
                                           : diag::say("{} has {} characters", called(key), length);
        context.out.error(
            length > key.maximum ? "too-long" : "too-short", node.place,
            key.minimum == key.maximum
                ? diag::say("{}; it must have {}", has, key.minimum)
                : diag::say("{}; it may have {} to {}", has, key.minimum, key.maximum),
            length > key.maximum ? diag::say("shorten it by {}", length - key.maximum)
                                 : write_example(key));
        return {};
    }
    return At<std::string>{text, node.place};
}

std::optional<At<std::string>> read_id(const Node& node, const Key& key, ReadContext& context) {
    auto text = read_text(node, key, context);
    if (!text) return {};
    const std::string& id = **text;
    const bool letters = std::all_of(
        id.begin(), id.end(), [](char c) { return strings::is_letter_or_digit(c) || c == '-'; });
    const bool hyphens =
        id.front() != '-' && id.back() != '-' && id.find("--") == std::string::npos;
    if (letters && hyphens) return text;
    const std::string meant = as_id(id, static_cast<std::size_t>(key.maximum));
    const bool named_by_user = key.name() == "*";
    context.out.error(
        "bad-id", node.place,
        letters ? diag::say("'{}' begins or ends with a hyphen, or has two side by side", id)
        : id.find(' ') != std::string::npos
            ? diag::say("'{}' has a blank in it, and it stands in a link", id)
            : diag::say("'{}' stands in a link, which takes only letters A to Z, digits and "
                        "hyphens",
                        id),
        meant.empty()   ? "write a short name of letters A to Z, digits and hyphens"
        : named_by_user ? diag::say("write {}", meant)
                        : diag::say("write {}: {}", key.name(), meant));
    return {};
}

std::optional<At<double>> read_number(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context) || !unquoted(node, context)) return {};
    const auto parsed = units::parse_number(node.text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        report(*problem, node, {}, context);
        return {};
    }
    const double value = std::get<double>(parsed);
    if (!within(value, key, "", node, context)) return {};
    return At<double>{value, node.place};
}

std::optional<At<int>> read_whole(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context) || !unquoted(node, context)) return {};
    const auto parsed = units::parse_whole(node.text);
    if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
        report(*problem, node, {}, context);
        return {};
    }
    const int value = std::get<int>(parsed);
    if (!within(value, key, "", node, context)) return {};
    return At<int>{value, node.place};
}

std::optional<At<bool>> read_flag(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
        return std::find(words.begin(), words.end(), node.text) != words.end();
    };
    const bool bare = !node.quoted;
    // Spreadsheets write them in capitals, which YAML reads too.
    if ((bare && is_one_of({"true", "TRUE"})) || is_one_of({"True", "yes", "Yes"}))
        return At<bool>{true, node.place};
    if ((bare && is_one_of({"false", "FALSE"})) || is_one_of({"False", "no", "No"}))
        return At<bool>{false, node.place};
    context.out.error("bad-choice", node.place,
                      diag::say("'{}' is neither true nor false", node.text),
                      diag::say("write {0}: true, or leave {0} out", key.name()));
    return {};
}

std::optional<At<std::size_t>> read_choice(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    const auto words = key.words();
    const auto found = std::find(words.begin(), words.end(), node.text);
    if (found != words.end()) {
        return At<std::size_t>{static_cast<std::size_t>(found - words.begin()), node.place};
    }
    const std::string_view meant = choice_meant(key, node.text);
    context.out.error(
        "bad-choice", node.place,
        key.name() == "*" ? diag::say("'{}' is not known here", node.text)
                          : diag::say("'{}' is not known as '{}'", node.text, key.name()),
        key.recipe() ? diag::say("write {}", type_in_words(key))
        : !meant.empty()
            ? diag::say("did you mean '{}'?", meant)
            : did_you_mean(node.text, words, diag::say("write {}", type_in_words(key)), context));
    return {};
}

std::optional<At<units::Volume>> read_volume(const Node& node, const Key& key,
                                             ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Volume>(units::parse_volume(node.text, context.kitchen),
                                   units::Dimension::volume, units::in_mL, node, key, context);
}
std::optional<At<units::Mass>> read_mass(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Mass>(units::parse_mass(node.text), units::Dimension::mass, units::in_g,
                                 node, key, context);
}
std::optional<At<units::Length>> read_length(const Node& node, const Key& key,
                                             ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Length>(units::parse_length(node.text), units::Dimension::length,
                                   units::in_mm, node, key, context);
}
std::optional<At<units::Area>> read_area(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Area>(units::parse_area(node.text), units::Dimension::area, units::in_m2,
                                 node, key, context);
}
std::optional<At<units::Duration>> read_duration(const Node& node, const Key& key,
                                                 ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Duration>(units::parse_duration(node.text), units::Dimension::duration,
                                     units::in_days, node, key, context);
}
std::optional<At<units::Density>> read_density(const Node& node, const Key& key,
                                               ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Density>(units::parse_density(node.text), units::Dimension::density,
                                    units::in_g_per_mL, node, key, context);
}
std::optional<At<units::Celsius>> read_temperature(const Node& node, const Key& key,
                                                   ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Celsius>(
        units::parse_temperature(node.text), units::Dimension::temperature,
        [](units::Celsius c) { return c.degrees; }, node, key, context);
}
std::optional<At<units::Share>> read_share(const Node& node, const Key& key, ReadContext& context) {
    if (!is_scalar(node, key, context)) return {};
    return quantity<units::Share>(
        units::parse_share(node.text), units::Dimension::share,
        [](units::Share s) { return s.in_percent(); }, node, key, context);
}

std::optional<At<Point>> read_point(const Node& node, const Key& key, ReadContext& context) {
    if (node.kind != Kind::sequence || node.items.size() != 2) {
        context.out.error("wrong-type", node.place, "a point is two numbers in brackets, in metres",
                          key.type == Type::point
                              ? write_example(key)
                              : "write each point as [metres to the right, metres up]");
        return {};
    }
    double metres[2] = {};
    for (std::size_t i = 0; i < 2; ++i) {
        const Node& item = node.items[i];
        if (!is_scalar(item, key, context) || !unquoted(item, context)) return {};
        const auto parsed = units::parse_number(item.text, units::Sign::any);
        if (const auto* problem = std::get_if<units::Problem>(&parsed)) {
            report(*problem, item, {}, context);
            return {};
        }
        metres[i] = std::get<double>(parsed);
        constexpr double furthest = 10'000;
        if (std::abs(metres[i]) > furthest) {
            context.out.error("out-of-bounds", item.place,
                              diag::say("each number of a point must be -{0:.0f} to {0:.0f} m, "
                                        "not {1}",
                                        furthest, item.text),
                              "write how many metres it is to the right and up on the floor plan");
            return {};
        }
    }
    return At<Point>{{units::m(metres[0]), units::m(metres[1])}, node.place};
}

}  // namespace gallipot::job
