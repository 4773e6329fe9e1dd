#pragma once

#include <optional>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/job/job.hpp"
#include "domain/mixing/solution.hpp"

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

/// What pure water would lose in grams a day. Holes: diffusion through each hole's wall and its two
/// mouths, D / (wall / (pi r^2) + 1 / (2 r)) times the difference of vapour density. Open surface:
/// Carrier's equation for air that does not move, times 0.74 as measured on undisturbed water.
/// Either over and times two (reference/evaporation.hpp; sources stand there).
units::Range<double> pure_water_loss_g_per_day(const Exposure& exposure);

/// The water activity at which a bait loses no more to the room's air: the air's vapour pressure
/// over that of pure water at the bait's surface.
double activity_of_air(const Exposure& exposure);

/// What a level that was read off says.
struct LevelEstimate {
    units::Range<double> strength;          ///< boric acid equivalent by mass, now
    units::Range<units::Volume> add_water;  ///< to bring that back to how it was set out
};

/// How the bait in one container dries. Water leaves at the pure rate times
/// (a - a_air) / (1 - a_air), where a is the activity of what water is left: sugar, honey and
/// glycerol hold it back, and below a_air none leaves (that some is taken up from the air is left
/// out). The path is worked out once; the bounds of the loss only stretch its time.
class Drying {
  public:
    /// `filled`: what one container holds, `mass` in all; `strength`: boric acid equivalent by
    /// mass.
    Drying(const Solution& filled, units::Mass mass, double strength,
           units::Range<double> pure_loss_g_per_day, double activity_of_air);

    /// Of the fresh bait.
    [[nodiscard]] units::Range<double> loss_g_per_day() const;
    /// Water that may leave in the end.
    [[nodiscard]] units::Mass water() const;

    /// After a time, when nothing but water leaves. What is eaten leaves at the strength of the
    /// moment and changes nothing in it, but there is less left to dilute what follows: a bait that
    /// is eaten from dries out sooner than this says.
    [[nodiscard]] units::Range<double> strength_after(units::Duration time) const;

    /// Water that brings it back after a time. None for a bait so thick that it hardly loses any
    /// (honey, glycerol): it is stirred, not thinned.
    [[nodiscard]] units::Range<units::Volume> water_to_restore(units::Duration time) const;

    /// Days until it is stronger than `most`, low the soonest. 0 when it is at once; none when it
    /// never is.
    [[nodiscard]] std::optional<units::Range<double>> days_until(double maximum) const;

    /// From the level after a time: the volume left over the volume filled, as it is read by eye.
    /// What is gone has evaporated or been eaten, and nobody saw which. Low: all of it was eaten.
    /// High: as much of it evaporated as can. Usual: the estimated evaporation, and the rest eaten
    /// meanwhile at a steady rate.
    [[nodiscard]] LevelEstimate read_level(units::Duration time, double level) const;

  private:
    /// Where the bait is on its path when pure water would have lost `dried`.
    struct Point {
        double dried = 0, water = 0, volume = 0;  ///< kg, kg, m3
    };
    [[nodiscard]] Point when_dried(double dried) const;
    [[nodiscard]] Point at_volume(double volume) const;
    [[nodiscard]] double strength_at(double water) const;
    [[nodiscard]] units::Volume water_back(double part, double water) const;

    double mass_ = 0;  ///< kg
    double strength_ = 0;
    double slowing_ = 1;  ///< of the fresh bait against pure water
    bool thick_ = false;
    units::Range<double> pure_loss_;  ///< kg/s
    std::vector<Point> path_;         ///< from as filled to as dry as it gets
};

}  // namespace gallipot::mixing
