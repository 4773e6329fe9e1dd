#include <algorithm>
#include <array>

#include "domain/reference/pests.hpp"

namespace gallipot::reference {

namespace {

// Regions that lie wholly or nearly so outside the tropics, from memory of the map.
constexpr std::array<std::string_view, 6> southern{"AR", "AU", "CL", "NZ", "UY", "ZA"};
constexpr std::array<std::string_view, 44> northern{
    "AD", "AL", "AT", "BA", "BE", "BG", "CA", "CH", "CY", "CZ", "DE", "DK", "EE", "ES", "FI",
    "FR", "GB", "GR", "HR", "HU", "IE", "IM", "IS", "IT", "JE", "JP", "KR", "LI", "LT", "LU",
    "LV", "MD", "ME", "MK", "MT", "NL", "NO", "PL", "PT", "RO", "SE", "SI", "UA", "US"};

}  // namespace

std::optional<Season> season_of(unsigned month, std::string_view region) {
    const bool south = std::ranges::find(southern, region) != southern.end();
    if (!south && std::ranges::find(northern, region) == northern.end()) return std::nullopt;
    // December, January and February are the first quarter counted.
    const unsigned quarter = (month % 12) / 3;
    constexpr std::array in_the_north{Season::winter, Season::spring, Season::summer,
                                      Season::autumn};
    return in_the_north.at((quarter + (south ? 2 : 0)) % 4);
}

}  // namespace gallipot::reference
