#include "cli/pest_words.hpp"

#include <array>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/table.hpp"

namespace gallipot::cli {
namespace {

using reference::Advice;
using reference::Cited;
using reference::Pest;
using reference::Provenance;
using reference::Topic;
using reference::UsualStrength;
using text::Catalog;

constexpr std::array topics{Topic::warning, Topic::label,        Topic::before, Topic::place,
                            Topic::food,    Topic::apply,        Topic::finish, Topic::count,
                            Topic::after,   Topic::professional, Topic::instead};

std::string say(const Catalog& words, std::string_view key) {
    return words("terminal.pests." + std::string(key));
}

std::string strength(const UsualStrength& usual, const Catalog& words) {
    const auto percent = [&](units::Share share) {
        return words.number(100 * share.fraction, text::Figures::two_significant);
    };
    const std::string share = usual.low == usual.high
                                  ? words.percent(usual.low.fraction)
                                  : words("unit.percent_range", {{"low", percent(usual.low)},
                                                                 {"high", percent(usual.high)}});
    return say(words, "form_" + std::string(word(usual.preparation))) + " " + share;
}

std::string strengths(const Pest& pest, const Catalog& words) {
    std::vector<std::string> all;
    for (const UsualStrength& usual : pest.usual) all.push_back(strength(usual, words));
    return fmt::format("{}", fmt::join(all, ", "));
}

std::string support(const Pest& pest, const Catalog& words) {
    return say(words, "support_" + std::string(word(pest.support.value)));
}

std::string days(units::Duration time, const Catalog& words) {
    return words("report.days", {{"n", units::in_days(time)}});
}

/// "12", or "7 to 10".
std::string range(const reference::BaitCount& count, const Catalog& words) {
    if (count.low == count.high) return std::to_string(count.low);
    return words("placement.amounts.range",
                 {{"low", std::to_string(count.low)}, {"high", std::to_string(count.high)}});
}

/// A pest's values, a row each.
class Rows {
  public:
    Rows(const Catalog& words, Table& table) : words_(words), table_(table) {}

    void add(const std::string& name, const std::string& value, Provenance provenance,
             std::string_view source) {
        const std::string standing_key = "terminal.list." + std::string(word(provenance));
        table_.row({name, value, words_(standing_key), std::string(source)});
    }
    template <class T>
    void add(std::string_view key, const std::string& value, const Cited<T>& from) {
        add(say(words_, key), value, from.provenance, from.source);
    }

  private:
    const Catalog& words_;
    Table& table_;
};

void add_figures(Rows& rows, const Pest& pest, const Catalog& words) {
    rows.add("support", support(pest, words), pest.support);
    for (const UsualStrength& usual : pest.usual)
        rows.add(say(words, "strength"), strength(usual, words), usual.provenance, usual.source);
    if (pest.result) {
        const auto day = [&](units::Duration time) {
            return words.number(units::in_days(time), text::Figures::whole);
        };
        const auto& range = pest.result->value;
        rows.add("result",
                 words("terminal.pests.days", {{"first", day(range.low)},
                                               {"usual", day(range.usual)},
                                               {"last", day(range.high)}}),
                 *pest.result);
    }
    if (pest.gone)
        rows.add("gone",
                 words(pest.gone->value.in_traps ? "terminal.pests.gone_traps"
                                                 : "terminal.pests.gone_after",
                       {{"days", days(pest.gone->value.none_seen_for, words)},
                        {"n", std::int64_t{pest.gone->value.empty_counts}}}),
                 *pest.gone);
    if (pest.liquid) {
        const auto& house = pest.liquid->value;
        rows.add(
            "liquid",
            words("terminal.pests.liquid_range", {{"low", words.volume(house.low)},
                                                  {"high", words.volume(house.high)},
                                                  {"least", std::to_string(house.stations_low)},
                                                  {"most", std::to_string(house.stations_high)}}),
            *pest.liquid);
    }
    if (pest.paste)
        rows.add("paste",
                 words("placement.amounts.range", {{"low", words.mass(pest.paste->value.low)},
                                                   {"high", words.mass(pest.paste->value.high)}}),
                 *pest.paste);
    const auto add_count = [&](const char* key, const auto& count) {
        if (count) rows.add(key, range(count->value, words), *count);
    };
    add_count("per_home", pest.per_home);
    add_count("per_kitchen", pest.per_kitchen);
    add_count("per_bathroom", pest.per_bathroom);
    if (pest.spacing) {
        const auto metres = [&](units::Length length) { return words.amount(units::in_m(length)); };
        rows.add("spacing",
                 words("placement.amounts.range",
                       {{"low", metres(pest.spacing->value.low)},
                        {"high", words("placement.amounts.metres",
                                       {{"n", metres(pest.spacing->value.high)}})}}),
                 *pest.spacing);
    }
    if (pest.every_room) rows.add("every_room", say(words, "yes"), *pest.every_room);
}

template <class T>
Json cited(Json value, const Cited<T>& from) {
    return {
        {"value", std::move(value)}, {"standing", word(from.provenance)}, {"source", from.source}};
}

std::string_view word(reference::Season season) {
    constexpr std::array<std::string_view, 4> words{"spring", "summer", "autumn", "winter"};
    return words.at(static_cast<std::size_t>(season));
}

std::string_view word(reference::Food food) {
    constexpr std::array<std::string_view, 3> words{"sugar", "fat", "protein"};
    return words.at(static_cast<std::size_t>(food));
}

}  // namespace

std::string pests_in_words(const Catalog& words, const Terminal& terminal) {
    constexpr std::size_t names_shown = 3;
    Table table({{say(words, "name"), false, true},
                 {say(words, "support")},
                 {say(words, "strength")},
                 {say(words, "called")}});
    for (const Pest& pest : reference::pests()) {
        auto names = reference::names_of(pest);
        std::erase(names, pest.name);
        if (names.size() > names_shown) names.resize(names_shown);
        table.row({std::string(pest.name), support(pest, words), strengths(pest, words),
                   fmt::format("{}", fmt::join(names, ", "))});
    }
    return table.text(terminal, words.language());
}

std::string pest_in_words(const Pest& pest, const Catalog& words, const Terminal& terminal) {
    std::string out = painted(terminal, Paint::heading, std::string(pest.name)) + '\n';
    out += paragraphs(
        fmt::format("  {}: {}\n", say(words, "called"), fmt::join(reference::names_of(pest), ", ")),
        terminal, words.language(), 2);
    Table table({{""},
                 {words("terminal.list.value")},
                 {words("terminal.list.standing")},
                 {words("terminal.list.source")}});
    Rows rows(words, table);
    add_figures(rows, pest, words);
    for (const Topic topic : topics) {
        for (const Advice& advice : pest.advice) {
            if (advice.topic != topic) continue;
            rows.add(say(words, "topic." + std::string(word(topic))), words(advice.key),
                     advice.provenance, advice.source);
        }
    }
    return out + '\n' + table.text(terminal, words.language());
}

Json pest_json(const Pest& pest, const Catalog& words) {
    Json usual = Json::array();
    for (const UsualStrength& it : pest.usual)
        usual.push_back({{"form", word(it.preparation)},
                         {"low_percent", figure(100 * it.low.fraction)},
                         {"high_percent", figure(100 * it.high.fraction)},
                         {"found_for", it.found_for.empty() ? Json(nullptr) : Json(it.found_for)},
                         {"standing", word(it.provenance)},
                         {"source", it.source}});
    Json advice = Json::array();
    for (const Advice& it : pest.advice)
        advice.push_back({{"topic", word(it.topic)},
                          {"key", it.key},
                          {"text", words(it.key)},
                          {"region", it.region.empty() ? Json(nullptr) : Json(it.region)},
                          {"standing", word(it.provenance)},
                          {"source", it.source}});
    Json food = Json::array();
    for (const auto& it : pest.food)
        food.push_back({{"season", word(it.season)},
                        {"food", word(it.food)},
                        {"standing", word(it.provenance)},
                        {"source", it.source}});
    Json out{{"name", pest.name},
             {"names", reference::names_of(pest)},
             {"support", cited(word(pest.support.value), pest.support)},
             {"lives_in_wood", pest.lives_in_wood},
             {"usual", std::move(usual)},
             {"food", std::move(food)},
             {"advice", std::move(advice)},
             {"instead", pest.instead.empty() ? Json(nullptr) : Json(pest.instead)}};
    const auto maybe = [&](const char* name, const auto& value, const auto& write) {
        out[name] = value ? cited(write(value->value), *value) : Json(nullptr);
    };
    maybe("result_days", pest.result, [](const auto& range) {
        return Json{{"low", figure(units::in_days(range.low))},
                    {"usual", figure(units::in_days(range.usual))},
                    {"high", figure(units::in_days(range.high))}};
    });
    maybe("gone", pest.gone, [](const reference::Gone& gone) {
        return Json{{"none_seen_days", figure(units::in_days(gone.none_seen_for))},
                    {"empty_counts", gone.empty_counts},
                    {"in_traps", gone.in_traps}};
    });
    maybe("liquid_per_house", pest.liquid, [](const reference::LiquidPerHouse& house) {
        return Json{{"low_mL", figure(units::in_mL(house.low))},
                    {"high_mL", figure(units::in_mL(house.high))},
                    {"stations_low", house.stations_low},
                    {"stations_high", house.stations_high}};
    });
    maybe("paste_per_home", pest.paste, [](const reference::PastePerHome& home) {
        return Json{{"low_g", figure(units::in_g(home.low))},
                    {"high_g", figure(units::in_g(home.high))}};
    });
    const auto baits = [](const reference::BaitCount& count) {
        return Json{{"low", count.low}, {"high", count.high}};
    };
    maybe("baits_per_home", pest.per_home, baits);
    maybe("baits_per_kitchen", pest.per_kitchen, baits);
    maybe("baits_per_bathroom", pest.per_bathroom, baits);
    maybe("spacing_outdoors", pest.spacing, [](const reference::Spacing& spacing) {
        return Json{{"low_m", figure(units::in_m(spacing.low))},
                    {"high_m", figure(units::in_m(spacing.high))}};
    });
    maybe("every_room", pest.every_room, [](bool every) { return Json(every); });
    return out;
}

}  // namespace gallipot::cli
