#include "domain/reference/allergens.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "domain/reference/pests/fold_case.hpp"

namespace gallipot::reference {

bool names_peanut(std::string_view name) {
    // " mani " is Filipino, and Spanish without its accent: alone, since other words begin so.
    static constexpr std::array<std::string_view, 8> words = {
        "peanut", "groundnut", "erdnuss", "erdnuß", "cacahu", "maní", "арахіс", " mani "};
    const std::string text = " " + fold_case(name) + " ";
    return std::ranges::any_of(
        words, [&](std::string_view word) { return text.find(word) != std::string::npos; });
}

}  // namespace gallipot::reference
