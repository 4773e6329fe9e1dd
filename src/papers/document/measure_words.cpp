#include "papers/document/measure_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "base/units/number.hpp"

namespace gallipot::document {

namespace {

using plan::MeasureStep;
using text::Catalog;
using text::StyledText;
using Kind = job::Measure::Kind;

/// A spoon's name taken apart: how much of which unit.
struct Spoon {
    double number = 1;
    std::string unit;  ///< part of a catalog key, or the user's own word
    bool known = false;
};

std::string unit_key(const std::string& unit) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 8> names = {{
        {"tsp", "teaspoon"},
        {"teaspoon", "teaspoon"},
        {"teaspoons", "teaspoon"},
        {"tbsp", "tablespoon"},
        {"tablespoon", "tablespoon"},
        {"tablespoons", "tablespoon"},
        {"cup", "cup"},
        {"cups", "cup"},
    }};
    for (const auto& [name, key] : names) {
        if (unit == name) return std::string(key);
    }
    return {};
}

Spoon spoon_of(const std::string& written) {
    Spoon spoon{1, written, false};
    const auto read = units::read_number(written, units::Sign::positive);
    if (const auto* number = std::get_if<units::Number>(&read)) {
        const auto start = written.find_first_not_of(' ', number->end);
        if (start != std::string::npos) {
            spoon.number = number->value;
            spoon.unit = written.substr(start);
        }
    }
    const std::string key = unit_key(spoon.unit);
    spoon.known = !key.empty();
    if (spoon.known) spoon.unit = key;
    return spoon;
}

/// "¾ tsp"; what is no kitchen spoon as the user wrote it: "60 mL".
std::string spoonfuls(double number, const Spoon& spoon, const Catalog& words) {
    const std::string figure = kitchen_number(number, words);
    if (!spoon.known) return text::unbroken(figure + " " + spoon.unit);
    const bool one = number <= 1;
    return words("unit." + spoon.unit, {{"n", figure}, {"count", std::int64_t{one ? 1 : 2}}});
}

StyledText spoons(const std::vector<MeasureStep>& steps, bool level, const Catalog& words) {
    std::vector<Spoon> each;
    each.reserve(steps.size());
    for (const MeasureStep& step : steps) each.push_back(spoon_of(step.measure));
    const bool same_unit = std::all_of(each.begin(), each.end(), [&](const Spoon& spoon) {
        return spoon.unit == each.front().unit;
    });
    const std::string key = level ? "measure.level" : "measure.spoons";

    std::vector<std::string> amounts;
    std::vector<std::string> actions;
    double total = 0;
    bool plain = true;  // whole spoons of one kind need no list of actions
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const int times = steps[i].times;
        total += times * each[i].number;
        amounts.push_back(spoonfuls(times * each[i].number, each[i], words));
        actions.push_back(words(
            "measure.times",
            {{"n", std::int64_t{times}}, {"size", spoonfuls(each[i].number, each[i], words)}}));
        if (each[i].number != 1 && times != 1) plain = false;
    }
    if (same_unit && steps.size() > 1) {
        amounts = {spoonfuls(total, each.front(), words)};
        plain = false;
    }
    if (plain) return words.rich(key, {{"amount", words.list(amounts)}});
    return words.rich(key + "_from",
                      {{"amount", words.list(amounts)}, {"steps", words.list(actions)}});
}

/// Jug, syringe or scale; several steps of one kind as "1.8 kg and 862 g on the scale, one after
/// the other": each is one filling or weighing.
StyledText other(const std::vector<MeasureStep>& steps, const Catalog& words) {
    const auto amount = [&](const MeasureStep& step) {
        return step.kind == Kind::scale ? words.mass(step.weight) : words.volume(step.volume);
    };
    std::string all = amount(steps.front());
    if (steps.size() > 1) {
        std::vector<std::string> amounts;
        amounts.reserve(steps.size());
        for (const MeasureStep& step : steps) {
            amounts.push_back(step.times == 1
                                  ? amount(step)
                                  : words("measure.times", {{"n", std::int64_t{step.times}},
                                                            {"size", amount(step)}}));
        }
        all = words.list(amounts);
    }
    const bool parts = steps.size() > 1;
    const auto say = [&](const std::string& key, const char* argument) {
        if (parts) return words.rich(key + "_parts", {{argument, all}});
        return words.rich(key, {{argument, all}, {"n", std::int64_t{steps.front().times}}});
    };
    switch (steps.front().kind) {
        case Kind::jug:
            return say("measure.jug", "volume");
        case Kind::syringe:
            return say("measure.syringe", "volume");
        case Kind::scale:
            return say("measure.scale", "mass");
        case Kind::scoop:
            break;
    }
    return {};
}

}  // namespace

std::string written_amount(const std::string& written, const Catalog& words) {
    const Spoon spoon = spoon_of(written);
    return spoonfuls(spoon.number, spoon, words);
}

std::string kitchen_number(double number, const Catalog& words) {
    constexpr std::array<std::pair<double, std::string_view>, 9> fractions = {{
        {1.0 / 8, "⅛"},
        {1.0 / 4, "¼"},
        {1.0 / 3, "⅓"},
        {3.0 / 8, "⅜"},
        {1.0 / 2, "½"},
        {5.0 / 8, "⅝"},
        {2.0 / 3, "⅔"},
        {3.0 / 4, "¾"},
        {7.0 / 8, "⅞"},
    }};
    constexpr double slack = 1e-6;
    const double whole = std::floor(number + slack);
    const double rest = number - whole;
    const std::string figure =
        whole > 0 ? words.number(whole, text::Figures::whole) : std::string();
    if (std::abs(rest) <= slack) return figure.empty() ? "0" : figure;
    for (const auto& [value, glyph] : fractions) {
        if (std::abs(rest - value) <= slack) return figure + std::string(glyph);
    }
    return words.amount(number);
}

StyledText take(const plan::Ingredient& ingredient, const Catalog& words) {
    const auto& steps = ingredient.measures;
    if (steps.empty()) {
        return ingredient.powder || ingredient.volume == units::Volume()
                   ? words.rich("measure.weigh", {{"mass", words.mass(ingredient.mass)}})
                   : words.rich("measure.pour", {{"volume", words.volume(ingredient.volume)}});
    }
    const bool level = ingredient.powder;
    if (std::all_of(steps.begin(), steps.end(),
                    [&](const auto& step) { return step.kind == steps.front().kind; })) {
        return steps.front().kind == Kind::scoop ? spoons(steps, level, words)
                                                 : other(steps, words);
    }
    std::vector<std::string> parts;
    parts.reserve(steps.size());
    for (const MeasureStep& step : steps) {
        parts.push_back(text::plain(step.kind == Kind::scoop ? spoons({step}, level, words)
                                                             : other({step}, words)));
    }
    return {{words.list(parts), true}};
}

}  // namespace gallipot::document
