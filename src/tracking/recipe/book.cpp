#include "tracking/recipe/book.hpp"

namespace gallipot::recipe {

Book::Book(const std::vector<Noted>& noted, std::map<std::string, Recipe> now) {
    for (auto& [mix, recipe] : now) now_[mix] = std::make_shared<const Recipe>(std::move(recipe));
    for (const Noted& each : noted) {
        auto& of_mix = noted_[each.mix];
        if (!each.since) of_mix.clear();
        of_mix.push_back(
            {each.since, each.after_entry, std::make_shared<const Recipe>(each.recipe)});
    }
}

SharedRecipe Book::at(const std::string& mix, LocalTime time, std::int64_t entry) const {
    const auto found = noted_.find(mix);
    if (found == noted_.end()) return now(mix);
    SharedRecipe held = found->second.front().recipe;
    for (const Dated& dated : found->second) {
        const bool noted_before = entry == 0 || entry > dated.after_entry;
        if (dated.since && *dated.since <= time && noted_before) held = dated.recipe;
    }
    return held;
}

SharedRecipe Book::now(const std::string& mix) const {
    const auto found = now_.find(mix);
    return found == now_.end() ? nullptr : found->second;
}

std::size_t Book::number(const std::string& mix) const {
    const SharedRecipe present = now(mix);
    const auto found = noted_.find(mix);
    if (found == noted_.end()) return present ? 1 : 0;
    const bool changed = present && !(*found->second.back().recipe == *present);
    return found->second.size() + (changed ? 1 : 0);
}

}  // namespace gallipot::recipe
