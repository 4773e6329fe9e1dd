#include "papers/document/measure_words.hpp"

#include <algorithm>
#include <string_view>
#include <vector>

#include "base/strings/ascii.hpp"
#include "base/units/number.hpp"

namespace gallipot::document {

namespace {

using plan::MeasureStep;
using text::Catalog;
using text::StyledText;
using Kind = job::Measure::Kind;

/// A spoon taken apart: how much of which unit.
struct Spoon {
    double number = 1;
    units::WrittenUnit unit;
    std::string own;  ///< the user's word for a metric unit: "mL" of "60 mL"

    [[nodiscard]] bool same_unit(const Spoon& other) const {
        return unit == other.unit && own == other.own;
    }
};

Spoon spoon_of(const MeasureStep& step) {
    const std::string& written = step.measure;
    Spoon spoon{1, step.unit, written};
    const auto read = units::read_number(written, units::Sign::positive);
    if (const auto* number = std::get_if<units::Number>(&read)) {
        spoon.number = number->value;
        spoon.own = strings::trimmed(std::string_view(written).substr(number->end));
    }
    if (!spoon.unit.metric()) spoon.own.clear();
    return spoon;
}

std::string spoonfuls(double number, const Spoon& spoon, const Catalog& words) {
    if (!spoon.unit.metric()) return words.spoonfuls(number, spoon.unit);
    return text::unbroken(words.kitchen_number(number) + " " + spoon.own);
}

StyledText spoons(const std::vector<MeasureStep>& steps, bool level, const Catalog& words) {
    std::vector<Spoon> each;
    each.reserve(steps.size());
    for (const MeasureStep& step : steps) each.push_back(spoon_of(step));
    const bool same_unit = std::all_of(each.begin(), each.end(), [&](const Spoon& spoon) {
        return spoon.same_unit(each.front());
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
        return step.kind == Kind::scale ? words.mass(step.weight, step.unit)
                                        : words.volume(step.volume, step.unit);
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

StyledText take(const plan::Ingredient& ingredient, const Catalog& words) {
    const auto& steps = ingredient.measures;
    if (steps.empty()) {
        return ingredient.powder || ingredient.volume == units::Volume()
                   ? words.rich("measure.weigh", {{"mass", words.usual(ingredient.mass)}})
                   : words.rich("measure.pour", {{"volume", words.usual(ingredient.volume)}});
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

std::vector<Tool> tools(const plan::Ingredient& ingredient, const job::Job& job,
                        const Catalog& words) {
    units::Volume largest;
    for (const job::Measure& measure : job.measures)
        if (measure.kind == Kind::scoop) largest = std::max(largest, measure.volume);
    std::vector<Tool> made;
    for (const MeasureStep& step : ingredient.measures) {
        Tool tool;
        tool.times = step.times;
        const auto own = std::ranges::find_if(job.measures, [&](const job::Measure& measure) {
            return measure.kind == step.kind && measure.name == step.measure;
        });
        const bool holds = own != job.measures.end() && own->volume > units::Volume{};
        switch (step.kind) {
            case Kind::scoop: {
                const Spoon spoon = spoon_of(step);
                tool.kind = Tool::Kind::scoop;
                if (largest > units::Volume{}) tool.size = step.volume / largest;
                tool.name = {{spoonfuls(spoon.number, spoon, words), false}};
                break;
            }
            case Kind::jug:
                tool.kind = Tool::Kind::jug;
                if (holds) tool.filled = step.volume / own->volume;
                tool.name = {{words.volume(step.volume, step.unit), false}};
                break;
            case Kind::syringe:
                tool.kind = Tool::Kind::syringe;
                if (holds) tool.filled = step.volume / own->volume;
                break;
            case Kind::scale:
                tool.kind = Tool::Kind::scale;
                break;
        }
        made.push_back(std::move(tool));
    }
    return made;
}

}  // namespace gallipot::document
