#include "domain/reference/pests/rows.hpp"

namespace gallipot::reference {

namespace {

constexpr std::string_view nothing_found = "no trial found on 26 November 2026";

Pest row(std::string_view name, const Cited<Support>& support, std::string_view instead,
         std::vector<Advice> advice = {}) {
    return {.name = name,
            .support = support,
            .instead = instead,
            .advice = together({{{Topic::instead, "advice.instead.nothing_published",
                                  support.provenance, support.source}},
                                std::move(advice)})};
}

Pest not_found(std::string_view name, std::string_view instead) {
    return row(name, {Support::none, Provenance::found, nothing_found}, instead);
}

}  // namespace

std::vector<Pest> unsupported_rows() {
    return {
        row("house flies",
            {Support::conflicting, Provenance::found,
             "Balme and others 2013, J. Agric. Urban Entomol. 29: averse above 0.5 %; Hogsette and "
             "Koehler 1994, J. Econ. Entomol. 87:1033-1037: 2.25 % is best"},
            "clear away what they breed in and put up screens (Hinkle and Hogsette 2021)"),
        row("mosquitoes",
            {Support::conflicting, Provenance::found,
             "Naranjo and others 2013, Parasitol. Res. 112:1583-1587: fewer for three weeks where "
             "plants were sprayed; boric acid stations on farms in Taiwan: fewer on some, more on "
             "one"},
            "empty standing water and put up screens, or ask the local mosquito control"),
        row("fleas",
            {Support::none, Provenance::found,
             "borates act on larvae that eat them in carpets, never as a bait (fleascience.com, "
             "review of trials)"},
            "ask a vet about the animals, wash their bedding and vacuum"),
        row("bed bugs",
            {Support::none, Provenance::found,
             "J. Econ. Entomol. 2018 (Schal and others): dust hardly acts, and they eat blood "
             "alone"},
            "call a licensed professional"),
        not_found("rats and mice", "call a licensed professional; seal holes and lock food away"),
        not_found("flour beetles", "throw out what is infested and keep the rest in closed jars"),
        not_found("moths", "throw out or freeze what is infested and keep the rest closed"),
        not_found("carpet beetles", "vacuum and wash, or call a licensed professional"),
        not_found("earwigs", "dry the place and seal the cracks"),
        not_found("woodlice", "dry the place and seal the cracks"),
        not_found("crickets", "dry the place and seal the cracks"),
        not_found("wasps", "keep away from the nest and call a licensed professional"),
        not_found("bees", "leave them alone and call a beekeeper"),
        not_found("spiders", "take them out with a glass and a card"),
    };
}

}  // namespace gallipot::reference
