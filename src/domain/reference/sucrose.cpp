#include "domain/reference/sucrose.hpp"

#include <algorithm>
#include <array>

namespace gallipot::reference {

namespace {

constexpr std::string_view laboratory =
    "Nicolaus Copernicus University physics laboratory tables, sucrose solution, 20 C";
constexpr std::string_view handbook = "CRC Handbook of Chemistry and Physics, sucrose solutions";
constexpr std::string_view circular = "NBS Circular 440, recalled; the CRC Handbook has 1.2864";

constexpr SucrosePoint point(double percent, double g_per_mL, Provenance provenance,
                             std::string_view source) {
    return {units::Share::percent(percent), {units::g_per_mL(g_per_mL), provenance, source}};
}

constexpr std::array densities = {point(0, 0.99823, Provenance::found, laboratory),
                                  point(5, 1.01784, Provenance::found, laboratory),
                                  point(10, 1.03813, Provenance::found, laboratory),
                                  point(15, 1.05916, Provenance::found, laboratory),
                                  point(20, 1.08094, Provenance::found, laboratory),
                                  point(25, 1.10354, Provenance::found, laboratory),
                                  point(30, 1.12698, Provenance::found, laboratory),
                                  point(35, 1.15127, Provenance::found, laboratory),
                                  point(40, 1.17640, Provenance::found, handbook),
                                  point(50, 1.22960, Provenance::found, handbook),
                                  point(60, 1.28650, Provenance::memory, circular)};

/// Apparent specific volumes at the table's points from the second on, in m3/kg.
constexpr auto volumes = [] {
    std::array<double, densities.size() - 1> out{};
    const double water = densities[0].density.value.si();
    for (std::size_t i = 0; i < out.size(); ++i) {
        const auto& [sucrose, density] = densities[i + 1];
        out[i] = (1 / density.value.si() - (1 - sucrose.fraction) / water) / sucrose.fraction;
    }
    return out;
}();

/// Saturated at about 20 C; a table of densities ends there.
constexpr double maximum = 0.671;

}  // namespace

std::span<const SucrosePoint> sucrose_densities() {
    return densities;
}

units::SpecificVolume sucrose_volume_in_solution(units::Share sucrose) {
    // Below 5 % the quotient is all rounding error: hold the first value, 0.6158 mL/g.
    const double share = std::clamp(sucrose.fraction, densities[1].sucrose.fraction, maximum);
    std::size_t upper = 1;
    while (upper + 1 < volumes.size() && densities[upper + 1].sucrose.fraction < share) ++upper;
    const double low_share = densities[upper].sucrose.fraction;
    const double high_share = densities[upper + 1].sucrose.fraction;
    const double part = (share - low_share) / (high_share - low_share);
    return units::SpecificVolume::si(volumes[upper - 1] +
                                     part * (volumes[upper] - volumes[upper - 1]));
}

}  // namespace gallipot::reference
