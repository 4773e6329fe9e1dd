#include "domain/reference/pests.hpp"

#include <algorithm>
#include <iterator>

#include "domain/reference/pests/rows.hpp"

namespace gallipot::reference {

std::vector<Advice> together(std::initializer_list<std::vector<Advice>> lists) {
    std::vector<Advice> all;
    for (const auto& list : lists) all.insert(all.end(), list.begin(), list.end());
    return all;
}

std::span<const Pest> pests() {
    static const std::vector<Pest> table = [] {
        std::vector<Pest> all;
        for (std::vector<Pest> rows :
             {ant_rows(), wood_rows(), cockroach_rows(), bristletail_rows(), unsupported_rows()})
            std::ranges::move(rows, std::back_inserter(all));
        return all;
    }();
    return table;
}

const Pest* pest_named(std::string_view name) {
    const auto at = std::ranges::find(pests(), name, &Pest::name);
    return at == pests().end() ? nullptr : &*at;
}

std::vector<const Advice*> Pest::advice_on(Topic topic, std::string_view region) const {
    std::vector<const Advice*> chosen;
    for (const Advice& sentence : advice) {
        if (sentence.topic == topic && (sentence.region.empty() || sentence.region == region))
            chosen.push_back(&sentence);
    }
    return chosen;
}

std::string_view word(Support support) {
    switch (support) {
        case Support::yes:
            return "yes";
        case Support::weak:
            return "weak";
        case Support::conflicting:
            return "conflicting";
        case Support::none:
            break;
    }
    return "none";
}

std::string_view word(Provenance provenance) {
    switch (provenance) {
        case Provenance::found:
            return "found";
        case Provenance::memory:
            return "memory";
        case Provenance::derived:
            return "derived";
        case Provenance::ours:
            break;
    }
    return "ours";
}

std::string_view word(Topic topic) {
    switch (topic) {
        case Topic::warning:
            return "warning";
        case Topic::label:
            return "label";
        case Topic::before:
            return "before";
        case Topic::place:
            return "place";
        case Topic::food:
            return "food";
        case Topic::apply:
            return "apply";
        case Topic::finish:
            return "finish";
        case Topic::count:
            return "count";
        case Topic::after:
            return "after";
        case Topic::professional:
            return "professional";
        case Topic::instead:
            break;
    }
    return "instead";
}

std::string_view word(Preparation preparation) {
    switch (preparation) {
        case Preparation::liquid:
            return "liquid";
        case Preparation::dry:
            return "dry";
        case Preparation::paste:
            return "paste";
        case Preparation::spray:
            break;
    }
    return "spray";
}

}  // namespace gallipot::reference
