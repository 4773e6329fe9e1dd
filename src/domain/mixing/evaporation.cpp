#include "domain/mixing/evaporation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "domain/reference/atoms.hpp"
#include "domain/reference/evaporation.hpp"

namespace gallipot::mixing {

using units::Area;
using units::Celsius;
using units::Length;
using units::Range;
namespace evaporation = reference::evaporation;

namespace {

constexpr double seconds_per_day = 86400;
constexpr double g_per_day = 1e-3 / seconds_per_day;  // in kg/s
constexpr double kelvin = 273.15;

double saturation_pressure(Celsius temperature) {
    const auto& [base, slope, offset] = evaporation::saturation.value;
    return base * std::exp(slope * temperature.degrees / (offset + temperature.degrees));
}

/// Of the vapour in the room's air, which is no warmer than the room, in Pa.
double air_pressure(Celsius surface) {
    const Celsius air{std::min(surface.degrees, evaporation::room_celsius)};
    return evaporation::humidity * saturation_pressure(air);
}

/// Between pure water's surface and the room's air, in Pa.
double pressure_difference(Celsius surface) {
    return saturation_pressure(surface) - air_pressure(surface);
}

/// kg/s out of holes, the air inside taken as saturated.
double through_holes(const Exposure& exposure) {
    const double absolute = exposure.surface.degrees + kelvin;
    const double density = pressure_difference(exposure.surface) *
                           (reference::atoms::water / 1000) /
                           (evaporation::gas_constant.value * absolute);
    const auto& [at_0, power] = evaporation::diffusion.value;
    const double diffusion = at_0 * std::pow(absolute / kelvin, power);
    const double radius = exposure.hole.si() / 2;
    const double mouth = std::numbers::pi * radius * radius;
    const double resistance = evaporation::wall.si() / mouth + 1 / (2 * radius);
    return exposure.area.si() / mouth * diffusion / resistance * density;
}

/// kg/s from an open surface.
double from_surface(const Exposure& exposure) {
    const auto& [at_0, per_degree] = evaporation::latent_heat.value;
    const double heat = at_0 + per_degree * exposure.surface.degrees;
    return evaporation::undisturbed.value * evaporation::carrier.value * exposure.area.si() *
           pressure_difference(exposure.surface) / heat;
}

bool near(const job::Station& station, job::Near what) {
    return std::ranges::any_of(station.near, [&](const auto& at) { return *at == what; });
}

Area circle(Length diameter) {
    return diameter * diameter * (std::numbers::pi / 4);
}

}  // namespace

std::optional<Exposure> exposure_of(const job::Container& container, const job::Station& station) {
    Exposure out;
    const bool warm = near(station, job::Near::sun) || near(station, job::Near::heat);
    const bool cold = near(station, job::Near::cold);
    out.surface = {warm == cold ? evaporation::room_celsius
                   : warm       ? evaporation::warm_celsius
                                : evaporation::cold_celsius};
    const auto& openings = container.openings;
    if (container.exposure) {
        out.area = **container.exposure;
    } else if (!openings || openings->closed) {
        return std::nullopt;
    } else if (openings->side || openings->hole > Length{}) {
        out.holes = true;
        out.area = openings->area;
        out.hole = openings->hole > Length{} ? openings->hole : evaporation::hole;
    } else if (openings->area > Area{}) {
        out.area = openings->area;
    } else if (const auto across =
                   container.body.lid ? container.body.lid : container.body.diameter) {
        out.area = circle(*across);
    }
    if (out.area <= Area{}) return std::nullopt;
    return out;
}

Range<double> pure_water_loss_g_per_day(const Exposure& exposure) {
    const double kg_per_s = exposure.holes ? through_holes(exposure) : from_surface(exposure);
    const double usual = kg_per_s / g_per_day;
    return {usual / evaporation::doubt_factor, usual, usual * evaporation::doubt_factor};
}

double activity_of_air(const Exposure& exposure) {
    return air_pressure(exposure.surface) / saturation_pressure(exposure.surface);
}

}  // namespace gallipot::mixing
