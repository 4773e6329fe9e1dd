#include "papers/document/held_words.hpp"

#include <algorithm>

#include "papers/document/joins.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

/// Of an ingredient that the job may not have any more.
std::string part_name(const job::Job& job, const plan::Mix& mix, const recipe::Part& part,
                      const text::Catalog& words) {
    const auto known = std::ranges::find(mix.ingredients, part.name, &plan::Ingredient::name);
    if (known != mix.ingredients.end()) return ingredient_name(job, *known, words);
    return part.substance.empty() ? part.name : substance_name(part.substance, words);
}

std::string contents_text(const job::Job& job, const plan::Mix& mix, const recipe::Recipe& recipe,
                          const plan::Contents& contents, const text::Catalog& words) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < recipe.parts.size(); ++i) {
        const std::string name = part_name(job, mix, recipe.parts[i], words);
        parts.push_back(
            recipe.parts[i].substance == "water"
                ? name
                : words("contents.with_mass",
                        {{"name", name}, {"mass", words.mass(contents.ingredients[i].second)}}));
    }
    return joined(words, Join::comma, parts);
}

Held held_by(const analysis::ContainerState& container, const job::Job& job,
             const plan::Station& planned, const plan::Mix& mix, const text::Catalog& words) {
    Held held;
    if (const auto filled = container.filled()) held.filled = analysis::day_of(*filled);
    held.mixed = container.holds.mixed;
    held.older = container.holds.older;
    held.missing = container.missing();
    if (container.holds.recipe && (held.older || held.mixed)) {
        const recipe::Recipe& recipe = *container.holds.recipe;
        held.contents = recipe::contents(recipe, planned.per_container->fill);
        held.text = contents_text(job, mix, recipe, held.contents, words);
        held.hazardous = recipe.hazardous();
    } else {  // as the job makes it, and really measures it
        held.contents = *planned.per_container;
        held.text = contents(job, mix, held.contents, words);
        held.hazardous = mix.hazard.hazardous();
    }
    return held;
}

bool alike(const Held& a, const Held& b) {
    return a.filled == b.filled && a.text == b.text && a.mixed == b.mixed && a.older == b.older &&
           a.missing == b.missing;
}

}  // namespace

std::vector<Held> held(const job::Job& job, const plan::Plan& plan,
                       const analysis::StationReport& station, const text::Catalog& words) {
    const plan::Station* planned = plan.station(station.id);
    if (planned == nullptr || !planned->per_container || station.containers.empty()) return {};
    const plan::Mix* mix = plan.mix(planned->mix);
    if (mix == nullptr) return {};
    std::vector<Held> all;
    for (const analysis::ContainerState& container : station.containers) {
        if (!container.set_out || container.taken_up) continue;
        Held one = held_by(container, job, *planned, *mix, words);
        const auto same =
            std::ranges::find_if(all, [&](const Held& other) { return alike(one, other); });
        Held& into = same == all.end() ? all.emplace_back(std::move(one)) : *same;
        into.ids.push_back(station.container_id(container.number));
    }
    return all;
}

}  // namespace gallipot::document
