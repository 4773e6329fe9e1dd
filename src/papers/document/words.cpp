#include "papers/document/words.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/strings/ascii.hpp"
#include "domain/job/language.hpp"
#include "domain/reference/pests.hpp"
#include "domain/reference/pests/fold_case.hpp"
#include "domain/reference/substances.hpp"
#include "papers/document/joins.hpp"

namespace gallipot::document {

namespace {

/// "icing sugar" as part of a catalog key.
std::string key_part(std::string_view name) {
    std::string key;
    for (const char c : name) key += c == ' ' ? '_' : strings::to_lower(c);
    return key;
}

bool main_language(const job::Job& job, const text::Catalog& words) {
    return job.languages.empty() || job::same_language(*job.languages.front(), words.tag());
}

/// Whether the job calls the ingredient by one of the substance's own names.
bool known_name(const plan::Ingredient& ingredient) {
    const auto* substance = reference::find_substance(ingredient.name);
    return substance != nullptr && substance->name == ingredient.substance;
}

bool is_a_name_of(const reference::Pest& pest, const std::string& text) {
    const std::string folded = reference::fold_case(text);
    return std::ranges::any_of(reference::names_of(pest),
                               [&](std::string_view name) { return folded == name; });
}

std::string pest_word(const job::Job& job, const std::string& against, const std::string& form,
                      const text::Catalog& words) {
    const auto word = [&](std::string_view pest) -> std::string {
        const std::string key = "pest." + key_part(pest) + "." + form;
        return words.has(key) ? words(key) : std::string();
    };
    if (std::string known = word(against); !known.empty()) return known;
    if (const auto* pest = reference::find_pest(against)) {
        // "ant" and "white ants" are called by their usual names; "sugar ants in the kitchen" says
        // more than "ants".
        if (!main_language(job, words) || is_a_name_of(*pest, against))
            if (std::string known = word(pest->name); !known.empty()) return known;
    }
    return against;
}

}  // namespace

std::string substance_name(const std::string& name, const text::Catalog& words) {
    const auto* substance = reference::find_substance(name);
    const std::string key =
        "substance." + key_part(substance != nullptr ? substance->name : std::string_view(name));
    return words.has(key) ? words(key) : name;
}

std::string ingredient_name(const job::Job& job, const plan::Ingredient& ingredient,
                            const text::Catalog& words) {
    // A substance's own name is in the paper's language, whatever the packet holds: a `borax` may
    // be the pentahydrate, or a solution of it.
    const bool main = main_language(job, words);
    if (reference::find_substance(ingredient.name) != nullptr &&
        (main || ingredient.substance.empty() || known_name(ingredient)))
        return substance_name(ingredient.name, words);
    if (main || ingredient.substance.empty()) return ingredient.name;
    return substance_name(ingredient.substance, words);
}

std::string ingredient_name(const job::Job& job, const plan::Mix& mix, const std::string& name,
                            const text::Catalog& words) {
    const auto at = std::find_if(mix.ingredients.begin(), mix.ingredients.end(),
                                 [&](const auto& ingredient) { return ingredient.name == name; });
    if (at == mix.ingredients.end()) throw std::logic_error("no ingredient '" + name + "'");
    return ingredient_name(job, *at, words);
}

std::string ingredient_note(const job::Job& job, const plan::Ingredient& ingredient,
                            const text::Catalog& words) {
    if (ingredient.substance.empty()) return {};
    const std::string called = ingredient_name(job, ingredient, words);
    std::string substance = substance_name(ingredient.substance, words);
    if (called != substance) return substance;
    const std::string key = "substance_note." + key_part(ingredient.substance);
    return words.has(key) ? words(key) : std::string();
}

std::string pest_name(const job::Job& job, const std::string& against, const text::Catalog& words) {
    return pest_word(job, against, "many", words);
}

std::string pest_bait_name(const job::Job& job, const std::string& against,
                           const text::Catalog& words) {
    return pest_word(job, against, "bait", words);
}

std::string contents(const job::Job& job, const plan::Mix& mix, const plan::Contents& contents,
                     const text::Catalog& words) {
    std::vector<std::string> parts;
    for (const auto& [named, mass] : contents.ingredients) {
        const std::string& name = named;  // clang 14 lets no lambda use one of a structured binding
        const auto at = std::find_if(mix.ingredients.begin(), mix.ingredients.end(),
                                     [&](const auto& i) { return i.name == name; });
        if (at == mix.ingredients.end()) throw std::logic_error("no ingredient '" + name + "'");
        const std::string called = ingredient_name(job, *at, words);
        parts.push_back(
            at->substance == "water"
                ? called
                : words("contents.with_mass", {{"name", called}, {"mass", words.mass(mass)}}));
    }
    return joined(words, Join::comma, parts);
}

int Recipe::count() const {
    int count = 0;
    for (const Filled& filled : fills) count += filled.count;
    return count;
}

std::string Recipe::area_text() const {
    units::Area area;
    bool alike = true;
    for (const job::Station* station : surfaces) {
        area += station->area->value;
        if (station->area_unit != surfaces.front()->area_unit) alike = false;
    }
    if (surfaces.empty() || !alike) return words.usual(area);
    return words.area(area, surfaces.front()->area_unit);
}

std::string Recipe::fills_text() const {
    std::vector<std::string> texts;
    for (const Filled& filled : fills) {
        texts.push_back(words("card.fills", {{"n", std::int64_t{filled.count}},
                                             {"fill", words.volume(filled.fill, filled.unit)}}));
    }
    return words.list(texts);
}

bool Recipe::hazardous() const {
    return mix.hazard.hazardous();
}

Recipe recipe(const job::Job& job, const plan::Plan& plan, const plan::Mix& mix,
              const text::Catalog& words) {
    const job::Mix* asked = job.mix(mix.id);
    if (asked == nullptr) throw std::logic_error("the job has no mix '" + mix.id + "'");
    Recipe recipe{job, *asked, plan, mix, words, {}, {}, {}};
    for (const job::Station& station : job.stations) {
        if (!station.mix || station.mix->value != mix.id) continue;
        if (station.sprayed()) {
            recipe.surfaces.push_back(&station);
        } else if (station.container) {
            const job::Container* container = job.container(station.container->value);
            if (container == nullptr) throw std::logic_error("a station without its container");
            auto at = std::find_if(recipe.fills.begin(), recipe.fills.end(), [&](const auto& f) {
                return f.fill == container->fill.value && f.unit == container->fill_unit;
            });
            if (at == recipe.fills.end()) {
                at =
                    recipe.fills.insert(at, Filled{0, container->fill.value, container->fill_unit});
            }
            at->count += station.count;
            if (std::find(recipe.containers.begin(), recipe.containers.end(), container) ==
                recipe.containers.end()) {
                recipe.containers.push_back(container);
            }
        }
    }
    return recipe;
}

std::string near_day(job::Date day, job::Date prepared, const text::Catalog& words) {
    const auto apart = std::chrono::sys_days(day) - std::chrono::sys_days(prepared);
    return apart >= std::chrono::days(0) && apart < std::chrono::days(300) ? words.day(day)
                                                                           : words.date(day);
}

}  // namespace gallipot::document
