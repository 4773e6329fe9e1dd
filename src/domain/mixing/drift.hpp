#pragma once

#include <optional>

#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"

/// Strength in use: water evaporates, the active stays, so a liquid bait grows stronger. An
/// estimate within a factor of two, for planning a top-up, not for proof.
namespace gallipot::mixing {

/// Water vapour's way out of a container.
struct Exposure {
    bool holes = false;  ///< holes in the wall, else an open surface
    units::Area area;    ///< of all holes, or of the surface
    units::Length hole;  ///< diameter of one
    units::Celsius surface{20};
};

/// From what the job says of a container and of where it stands: an `exposure` that was measured is
/// an open surface; else its openings; of a top that is open without a size, the lid's or the
/// body's circle. Sun or heat make it warm, cold cool, and both leave it as it is. None when it is
/// closed or nothing is said.
std::optional<Exposure> exposure_of(const job::Container& container, const job::Station& station);

/// Water lost in grams a day. Holes: diffusion through each hole's wall and its two mouths,
/// D / (wall / (pi r^2) + 1 / (2 r)) times the difference of vapour density. Open surface:
/// Carrier's equation for air that does not move, times 0.74 as measured on undisturbed water.
/// Either over and times two (reference/evaporation.hpp; sources stand there). That sugar holds
/// water back is left out: 3 % less from a 20 % syrup, a quarter less from a 60 % one.
units::Range<double> water_loss_g_per_day(const Exposure& exposure);

/// A liquid bait as it was set out.
struct Start {
    units::Mass mass;     ///< in one container
    units::Mass water;    ///< of that, water that can leave
    double strength = 0;  ///< boric acid equivalent by mass
};

/// After a time, when nothing but water leaves. What is eaten leaves at the strength of the moment
/// and changes nothing in it, but there is less left to dilute what follows: a bait that is eaten
/// from dries out sooner than this says.
double strength_after(const Start& start, double loss_g_per_day, units::Duration time);

/// Water that brings it back after a time.
units::Volume water_to_restore(const Start& start, double loss_g_per_day, units::Duration time);

/// Days until it is stronger than `most`. 0 when it is at once; none when all its water may leave
/// before, or none does.
std::optional<double> days_until(const Start& start, double loss_g_per_day, double most);

/// What a level that was read off says.
struct Reading {
    units::Range<double> strength;          ///< boric acid equivalent by mass, now
    units::Range<units::Volume> add_water;  ///< to bring that back to how it was set out
};

/// From the level (1 is as filled) after a time. What is gone has evaporated or been eaten, and
/// nobody saw which: at worst (high) all of it evaporated, at best (low) all of it was eaten. The
/// usual figure takes the estimated evaporation, and the rest as eaten meanwhile at a steady rate,
/// which gives strength x (1/level)^(evaporated part of what is gone).
Reading read_level(const Start& start, double loss_g_per_day, units::Duration time, double level);

}  // namespace gallipot::mixing
