#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "domain/mixing/evaporation.hpp"
#include "domain/reference/evaporation.hpp"

namespace gallipot::mixing {

using units::Mass;
using units::Range;
using units::Volume;

namespace {

constexpr double g_per_day = 1e-3 / 86400;  // in kg/s

double water_density() {
    static const double it = reference::find_substance("water")->true_density.value.si();
    return it;
}

/// Where a function that rises from below zero to above crosses it.
template <class Function>
double crossing(const Function& function, double low, double high) {
    std::uintmax_t steps = 200;  // far more than it takes
    const auto [below, above] = boost::math::tools::toms748_solve(
        function, low, high, boost::math::tools::eps_tolerance<double>(40), steps);
    return (below + above) / 2;
}

/// The water that is left when no more leaves, in kg: none where crystals keep its activity up.
double water_in_the_end(const Solution& filled, double air) {
    const double water = filled.water().si();
    const auto over = [&](double left) {
        return filled.dried_by(Mass::si(water - left)).water_activity() - air;
    };
    constexpr double hardly = 1e-6;
    if (over(water) <= 0) return water;
    if (over(water * hardly) >= 0) return 0;
    return crossing(over, water * hardly, water);
}

constexpr double step_length = 0.05;
constexpr int steps = 200;  // down to e^-10 of what may leave

}  // namespace

Drying::Drying(const Solution& filled, Mass mass, double strength,
               Range<double> pure_loss_g_per_day, double activity_of_air)
    : mass_(mass.si()),
      strength_(strength),
      pure_loss_{pure_loss_g_per_day.low * g_per_day, pure_loss_g_per_day.usual * g_per_day,
                 pure_loss_g_per_day.high * g_per_day} {
    const double fresh = filled.water_activity();
    slowing_ = std::max(fresh - activity_of_air, 0.0) / (1 - activity_of_air);
    thick_ = fresh < reference::evaporation::thick;
    const double water = filled.water().si();
    const double end = water_in_the_end(filled, activity_of_air);
    path_.push_back({0, water, filled.volume().si()});
    if (end >= water) return;
    // Along s, water = end + (water - end) e^-s: d(dried)/ds = (water - end) / slowing is smooth,
    // where d(dried)/d(water) has a pole at the end. Simpson's rule over each step.
    const auto state = [&](double s) {
        const double left = end + (water - end) * std::exp(-s);
        return filled.dried_by(Mass::si(water - left));
    };
    const auto rate = [&](const Solution& at) {
        return (at.water().si() - end) * (1 - activity_of_air) /
               (at.water_activity() - activity_of_air);
    };
    double before = rate(filled), dried = 0;
    for (int step = 1; step <= steps; ++step) {
        const double from = (step - 1) * step_length, to = step * step_length;
        const Solution at = state(to);
        const double after = rate(at), middle = rate(state((from + to) / 2));
        dried += (to - from) / 6 * (before + 4 * middle + after);
        path_.push_back({dried, at.water().si(), at.volume().si()});
        before = after;
    }
}

Drying::Point Drying::when_dried(double dried) const {
    const auto next = std::ranges::upper_bound(path_, dried, {}, &Point::dried);
    if (next == path_.end()) return path_.back();
    const Point &low = *(next - 1), &high = *next;
    const double part = (dried - low.dried) / (high.dried - low.dried);
    return {dried, std::lerp(low.water, high.water, part),
            std::lerp(low.volume, high.volume, part)};
}

Drying::Point Drying::at_volume(double volume) const {
    const auto next =
        std::ranges::lower_bound(path_, volume, std::ranges::greater{}, &Point::volume);
    if (next == path_.begin()) return path_.front();
    if (next == path_.end()) return path_.back();
    const Point &low = *(next - 1), &high = *next;
    const double part = (volume - low.volume) / (high.volume - low.volume);
    return {std::lerp(low.dried, high.dried, part), std::lerp(low.water, high.water, part), volume};
}

double Drying::strength_at(double water) const {
    return strength_ * mass_ / (mass_ - (path_.front().water - water));
}

Volume Drying::water_back(double part, double water) const {
    if (thick_) return {};
    return Volume::si(part * (path_.front().water - water) / water_density());
}

Range<double> Drying::loss_g_per_day() const {
    const double factor = slowing_ / g_per_day;
    return {pure_loss_.low * factor, pure_loss_.usual * factor, pure_loss_.high * factor};
}

Mass Drying::water() const {
    return Mass::si(path_.front().water - path_.back().water);
}

Range<double> Drying::strength_after(units::Duration time) const {
    const auto at = [&](double loss) { return strength_at(when_dried(loss * time.si()).water); };
    return {at(pure_loss_.low), at(pure_loss_.usual), at(pure_loss_.high)};
}

Range<Volume> Drying::water_to_restore(units::Duration time) const {
    const auto at = [&](double loss) { return water_back(1, when_dried(loss * time.si()).water); };
    return {at(pure_loss_.low), at(pure_loss_.usual), at(pure_loss_.high)};
}

std::optional<Range<double>> Drying::days_until(double maximum) const {
    if (strength_ >= maximum) return Range<double>::exactly(0);
    const double left = path_.front().water - mass_ * (1 - strength_ / maximum);
    if (left < path_.back().water || pure_loss_.usual <= 0) return std::nullopt;
    const auto next = std::ranges::lower_bound(path_, left, std::ranges::greater{}, &Point::water);
    const Point &low = *(next - 1), &high = *next;
    const double dried =
        std::lerp(low.dried, high.dried, (left - low.water) / (high.water - low.water));
    const auto days = [&](double loss) { return units::in_days(units::seconds(dried / loss)); };
    return Range<double>{days(pure_loss_.high), days(pure_loss_.usual), days(pure_loss_.low)};
}

LevelEstimate Drying::read_level(units::Duration time, double level) const {
    const double left = std::clamp(level, 1e-6, 1.0) * path_.front().volume;
    // Nothing eaten: all that is gone is water, as far as that can leave.
    const Point driest = at_volume(left);
    // `part` of what was filled in is there still. Eaten at a steady rate, what remains dries as if
    // it had stood alone for longer: the integral of dt / part(t).
    const auto state = [&](double part) {
        const double longer = part < 1 ? -std::log(part) / (1 - part) : 1;
        return when_dried(pure_loss_.usual * time.si() * longer);
    };
    const auto too_much = [&](double part) { return part * state(part).volume - left; };
    // Even uneaten it would be less than this: then it dried slower than estimated.
    const double part =
        too_much(1) <= 0 ? 1 : crossing(too_much, left / path_.front().volume * 1e-3, 1.0);
    const Point usual = too_much(1) <= 0 ? driest : state(part);
    const double driest_part = std::min(left / driest.volume, 1.0);
    return {{strength_, strength_at(usual.water), strength_at(driest.water)},
            {{}, water_back(part, usual.water), water_back(driest_part, driest.water)}};
}

}  // namespace gallipot::mixing
