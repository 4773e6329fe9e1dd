#include <algorithm>

#include "domain/reference/pests.hpp"
#include "domain/reference/pests/pest_names.hpp"
#include "domain/reference/pests/phrases.hpp"

namespace gallipot::reference {

namespace {

/// All names; each means the pest with that index in the table.
const Phrases& names() {
    static const Phrases all = [] {
        Phrases made;
        for (const PestNames& names : pest_names())
            made.add(names.phrases, names.compounds,
                     static_cast<std::size_t>(pest_named(names.pest) - pests().data()));
        return made;
    }();
    return all;
}

/// Higher calls for more caution.
int caution(const Pest& pest) {
    return (pest.lives_in_wood ? 10 : 0) + static_cast<int>(pest.support.value);
}

}  // namespace

std::vector<const Pest*> all_pests_in(std::string_view text) {
    std::vector<const Pest*> found;
    for (const std::size_t index : names().in(text)) found.push_back(&pests()[index]);
    std::ranges::stable_sort(
        found, [](const Pest* a, const Pest* b) { return caution(*a) > caution(*b); });
    return found;
}

const Pest* find_pest(std::string_view text) {
    const auto found = all_pests_in(text);
    return found.empty() ? nullptr : found.front();
}

std::vector<std::string_view> names_of(const Pest& pest) {
    std::vector<std::string_view> all;
    for (const PestNames& names : pest_names()) {
        if (names.pest != pest.name) continue;
        for (const std::string_view list : {names.phrases, names.compounds})
            for (const std::string_view name : parts_of(list)) all.push_back(name);
    }
    return all;
}

}  // namespace gallipot::reference
