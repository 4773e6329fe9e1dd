#include "domain/mixing/drift.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "domain/reference/atoms.hpp"
#include "domain/reference/evaporation.hpp"

namespace gallipot::mixing {

using units::Area;
using units::Celsius;
using units::Length;
using units::Mass;
using units::Range;
using units::Volume;
namespace evaporation = reference::evaporation;

namespace {

constexpr double seconds_per_day = 86400;
constexpr double kelvin = 273.15;
constexpr double water_density = 998.2071;  // kg/m3 at 20 C, as in the table of substances

double saturation_pressure(Celsius temperature) {
    const auto& [base, slope, offset] = evaporation::saturation.value;
    return base * std::exp(slope * temperature.degrees / (offset + temperature.degrees));
}

/// Between the water's surface and the room's air, in Pa.
double pressure_difference(Celsius surface) {
    const Celsius air{std::min(surface.degrees, evaporation::room_celsius)};
    return saturation_pressure(surface) - evaporation::humidity * saturation_pressure(air);
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

double evaporated(const Start& start, double loss_g_per_day, units::Duration time) {
    return std::min(loss_g_per_day * 1e-3 * units::in_days(time), start.water.si());
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

Range<double> water_loss_g_per_day(const Exposure& exposure) {
    const double kg_per_s = exposure.holes ? through_holes(exposure) : from_surface(exposure);
    const double usual = kg_per_s * 1e3 * seconds_per_day;
    return {usual / evaporation::doubt_factor, usual, usual * evaporation::doubt_factor};
}

double strength_after(const Start& start, double loss_g_per_day, units::Duration time) {
    const double mass = start.mass.si();
    return start.strength * mass / (mass - evaporated(start, loss_g_per_day, time));
}

Volume water_to_restore(const Start& start, double loss_g_per_day, units::Duration time) {
    return Volume::si(evaporated(start, loss_g_per_day, time) / water_density);
}

std::optional<double> days_until(const Start& start, double loss_g_per_day, double most) {
    if (start.strength >= most) return 0;
    const double lost = start.mass.si() * (1 - start.strength / most);
    if (lost > start.water.si() || loss_g_per_day <= 0) return std::nullopt;
    return lost * 1e3 / loss_g_per_day;
}

Reading read_level(const Start& start, double loss_g_per_day, units::Duration time, double level) {
    level = std::clamp(level, 1e-6, 1.0);
    const double mass = start.mass.si(), gone = mass * (1 - level);
    const double most = std::min(gone, start.water.si());
    const double usual = std::min(evaporated(start, loss_g_per_day, time), most);
    const auto at = [&](double lost) {
        const double part = gone > 0 ? lost / gone : 0;
        return start.strength * std::pow(1 / level, part);
    };
    const auto water = [&](double lost) {
        const double part = gone > 0 ? lost / gone : 0;
        return Volume::si(mass * level * (std::pow(1 / level, part) - 1) / water_density);
    };
    return {{at(0), at(usual), at(most)}, {water(0), water(usual), water(most)}};
}

}  // namespace gallipot::mixing
