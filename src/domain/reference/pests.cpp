#include "domain/reference/pests.hpp"

#include <algorithm>
#include <array>

namespace gallipot::reference {

namespace {

using units::days;
using units::Share;

constexpr std::string_view rust =
    "Rust, Reierson and Klotz 2002, bait toxicants for Argentine ants";
constexpr std::string_view gore_schal = "Gore and Schal 2004, J. Econ. Entomol. 97:581-587";
constexpr std::string_view dry_trial =
    "Kisaengchunghak Chapchi 1972, 10:95-99, dry baits with sugar";
constexpr std::string_view gel_trial = "Neupane and Kafle 2020, J. Kansas Entomol. Soc. 92:432-446";
constexpr std::string_view dilute = "common practice: a dilute timber spray stays at or below 2 %";
constexpr std::string_view treatments =
    "10 to 15 % octaborate (supplier's directions, quoted) and the 20 % borax with 15 % boric acid "
    "solution of the NZ Farm Forestry Association";

std::vector<Pest> all() {
    return {
        {.name = "ants",
         .words = {"ant", "ants", "hormiga", "hormigas", "ameise", "ameisen"},
         .usual = {{Preparation::liquid, Share::percent(0.5), Share::percent(1.0), Standing::found,
                    rust}},
         .result =
             Cited<units::Range<units::Duration>>{
                 {days(7), days(14), days(21)},
                 Standing::found,
                 "Klotz and others 1996, J. Econ. Entomol. 89:673-677: first to third week"}},
        {.name = "cockroaches",
         .words = {"cockroach", "cockroaches", "roach", "roaches", "cucaracha", "cucarachas",
                   "schabe", "schaben", "kakerlake", "kakerlaken"},
         .usual = {{Preparation::liquid, Share::percent(0.5), Share::percent(2.0), Standing::found,
                    gore_schal},
                   // Ten percent killed less than half in three days; twenty to fifty most of them.
                   {Preparation::dry, Share::percent(20), Share::percent(50), Standing::found,
                    dry_trial},
                   {Preparation::paste, Share::percent(40), Share::percent(40), Standing::found,
                    gel_trial}},
         .result =
             Cited<units::Range<units::Duration>>{
                 {days(3), days(10), days(15)},
                 Standing::derived,
                 "72 hours of the dry bait trial to the 15 days of Gore and Schal 2004"}},
        {.name = "wood borers",
         .words = {"wood", "woodworm", "borer", "borers", "timber", "carcoma", "holzwurm",
                   "holzwürmer"},
         // Boric acid equivalent: 10 % of octaborate is 12 %; 20 % borax and 15 % boric acid, 28 %.
         .usual = {{Preparation::spray, Share::percent(0.5), Share::percent(2.0), Standing::memory,
                    dilute},
                   {Preparation::spray, Share::percent(12), Share::percent(28), Standing::derived,
                    treatments},
                   {Preparation::liquid, Share::percent(12), Share::percent(28), Standing::derived,
                    treatments}},
         .result = std::nullopt},
    };
}

bool same_word(std::string_view text, std::string_view word) {
    return std::ranges::equal(text, word, [](char a, char b) {
        return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b;
    });
}

}  // namespace

std::span<const Pest> pests() {
    static const std::vector<Pest> table = all();
    return table;
}

const Pest* find_pest(std::string_view text) {
    constexpr std::string_view between = " \t\r\n,.;:/()&+-";
    std::vector<std::string_view> words;
    for (std::size_t at = text.find_first_not_of(between); at != std::string_view::npos;
         at = text.find_first_not_of(between, at)) {
        const std::size_t end = std::min(text.find_first_of(between, at), text.size());
        words.push_back(text.substr(at, end - at));
        at = end;
    }
    // The pests' order decides: "carpenter ants in wood" are ants.
    for (const Pest& pest : pests()) {
        for (const auto word : words) {
            if (std::ranges::any_of(
                    pest.words, [&](std::string_view known) { return same_word(word, known); })) {
                return &pest;
            }
        }
    }
    return nullptr;
}

}  // namespace gallipot::reference
