#include "domain/mixing/drift.hpp"

#include <cmath>
#include <numbers>

#include "catch_all.hpp"

using namespace gallipot;
using namespace gallipot::mixing;

namespace {

Exposure open_surface(double cm2) {
    Exposure it;
    it.area = units::cm2(cm2);
    return it;
}
Exposure holes(int count, double mm) {
    Exposure it;
    it.holes = true;
    it.hole = units::mm(mm);
    it.area = units::Area::si(count * std::numbers::pi / 4 * mm * mm * 1e-6);
    return it;
}

/// 45 g of a 20 % syrup with 0.65 % of boric acid equivalent.
const Start cup{units::g(45), units::g(35), 0.0065};

}  // namespace

TEST_CASE("an open surface loses what Carrier's equation gives, times what still water loses") {
    // By hand for 20 C and half saturated air: 2339 Pa and 1169 Pa (steam tables, memory),
    // 95 Btu/(h ft2 inHg) = 0.0885 W/(m2 Pa), 2454 kJ/kg:
    // 0.74 x 0.0885 x 1169 / 2454000 = 3.12e-5 kg/(m2 s) = 2.70 kg/m2 a day, 2.7 mm.
    const auto loss = water_loss_g_per_day(open_surface(100));
    CHECK(loss.usual == Approx(27.0).epsilon(0.01));
    CHECK(loss.low == Approx(loss.usual / 2));
    CHECK(loss.high == Approx(loss.usual * 2));
}

TEST_CASE("holes let through what diffusion allows") {
    // By hand, four holes of 6 mm in a wall of 1 mm: 1/(2r) = 166.7, wall/(pi r2) = 35.4 per
    // metre, D = 2.47e-5 m2/s: 4 x 1.22e-7 m3/s; 1169 Pa is 8.64 g/m3 at 20 C: 0.365 g a day.
    CHECK(water_loss_g_per_day(holes(4, 6)).usual == Approx(0.365).epsilon(0.01));
    // Small holes lose by their width, not their area (Brown and Escombe 1900): the same area in
    // more, smaller holes loses more.
    CHECK(water_loss_g_per_day(holes(16, 3)).usual > water_loss_g_per_day(holes(4, 6)).usual);
}

TEST_CASE("warmth makes it faster, cold slower") {
    Exposure it = open_surface(20);
    const double room = water_loss_g_per_day(it).usual;
    it.surface = {30};
    // 4246 Pa - 1169 Pa over 1169 Pa, latent heat 1 % less.
    CHECK(water_loss_g_per_day(it).usual / room == Approx(2.66).epsilon(0.01));
    it.surface = {10};
    CHECK(water_loss_g_per_day(it).usual / room == Approx(0.52).epsilon(0.02));
}

TEST_CASE("where the container stands and how it is open decide") {
    job::Container container;
    job::Station station;
    CHECK_FALSE(exposure_of(container, station));
    job::Openings openings;
    openings.side = true;
    openings.area = units::cm2(1.13);
    openings.hole = units::mm(6);
    container.openings = openings;
    REQUIRE(exposure_of(container, station));
    CHECK(exposure_of(container, station)->holes);
    CHECK(exposure_of(container, station)->hole == units::mm(6));
    CHECK(exposure_of(container, station)->surface.degrees == 20);
    station.near = {{job::Near::sun, {}}};
    CHECK(exposure_of(container, station)->surface.degrees == 30);
    station.near.push_back({job::Near::cold, {}});
    CHECK(exposure_of(container, station)->surface.degrees == 20);
    station.near = {{job::Near::children, {}}, {job::Near::cold, {}}, {job::Near::rain, {}}};
    CHECK(exposure_of(container, station)->surface.degrees == 10);
    station.near = {};
    // Holes in the wall of a size that nobody says are taken as 6 mm; in a lid they are holes too.
    openings.hole = {};
    container.openings = openings;
    CHECK(exposure_of(container, station)->hole == units::mm(6));
    openings.side = false;
    openings.hole = units::mm(4);
    container.openings = openings;
    CHECK(exposure_of(container, station)->holes);
    CHECK(exposure_of(container, station)->hole == units::mm(4));
    openings.hole = {};
    container.openings = openings;
    REQUIRE(exposure_of(container, station));
    CHECK_FALSE(exposure_of(container, station)->holes);
    CHECK(units::in_cm2(exposure_of(container, station)->area) == Approx(1.13));
    openings.closed = true;
    container.openings = openings;
    CHECK_FALSE(exposure_of(container, station));
    container.openings = job::Openings{};
    CHECK_FALSE(exposure_of(container, station));
    container.body.lid = units::mm(60);
    REQUIRE(exposure_of(container, station));
    CHECK(units::in_cm2(exposure_of(container, station)->area) == Approx(28.27).epsilon(1e-3));
    container.exposure = diag::At<units::Area>{units::cm2(12), {}};
    CHECK(units::in_cm2(exposure_of(container, station)->area) == Approx(12));
}

TEST_CASE("strength grows as water leaves, and the water brings it back") {
    // 9 g of 45 g gone: 45/36 times as strong.
    CHECK(strength_after(cup, 1, units::days(9)) == Approx(0.0065 * 45 / 36));
    CHECK(units::in_mL(water_to_restore(cup, 1, units::days(9))) == Approx(9).epsilon(2e-3));
    // No more leaves than there is.
    CHECK(strength_after(cup, 1, units::days(400)) == Approx(0.0065 * 45 / 10));
    CHECK(strength_after(cup, 0, units::days(30)) == Approx(0.0065));
    // 1 % is passed when the mass is down to 0.65 of what it was: 15.75 g.
    CHECK(*days_until(cup, 0.5, 0.01) == Approx(15.75 / 0.5));
    CHECK(*days_until(cup, 0.5, 0.005) == 0);
    CHECK_FALSE(days_until(cup, 0.5, 0.05));
    CHECK_FALSE(days_until(cup, 0, 0.01));
    CHECK(days_until(cup, 0, cup.strength) == 0.0);
    // Twice the strength is half the mass, which is all the water there is.
    const Start half_water{units::g(40), units::g(20), 0.01};
    CHECK(*days_until(half_water, 2, 0.02) == Approx(10));
    CHECK_FALSE(days_until(half_water, 2, 0.0201));
    CHECK(strength_after(cup, 0.5, units::days(*days_until(cup, 0.5, 0.01))) == Approx(0.01));
}

TEST_CASE("a level that was read bounds the strength") {
    const Reading half = read_level(cup, 0.5, units::days(10), 0.5);
    CHECK(half.strength.low == Approx(0.0065));
    CHECK(half.strength.high == Approx(0.013));
    CHECK(half.add_water.low == units::Volume{});
    // All evaporated: to bring 22.5 g back to strength takes as much again.
    CHECK(units::in_mL(half.add_water.high) == Approx(22.5).epsilon(2e-3));
    // 5 g of the 22.5 g gone evaporated: 2^(5/22.5).
    CHECK(half.strength.usual == Approx(0.0065 * std::pow(2, 5 / 22.5)));
    CHECK(half.add_water.usual > half.add_water.low);
    CHECK(half.add_water.usual < half.add_water.high);
    // Untouched is as it was; what evaporated cannot be more than what is gone.
    CHECK(read_level(cup, 0.5, units::days(10), 1).strength.high == Approx(0.0065));
    // More than full is read as full.
    CHECK(read_level(cup, 0.5, units::days(10), 1.04).strength.low == Approx(0.0065));
    CHECK(read_level(cup, 0.5, units::days(10), 1.04).strength.high == Approx(0.0065));
    CHECK(read_level(cup, 50, units::days(10), 0.9).strength.usual == Approx(0.0065 / 0.9));
    CHECK(std::isfinite(read_level(cup, 1, units::days(100), 0).strength.high));
    // At one in twenty 42.75 g are gone, of which the 35 g of water may have evaporated.
    CHECK(read_level(cup, 1, units::days(100), 0.05).strength.high ==
          Approx(0.0065 * std::pow(20, 35 / 42.75)));
}

TEST_CASE("a steady loss by both ways adds up step by step to the same strength") {
    // A plain reference: small steps of evaporation and eating at the strength of the moment.
    const double days = 12, evaporated = 6, eaten = 14;
    double mass = 45, active = 45 * 0.0065;
    const int steps = 200000;
    for (int i = 0; i < steps; ++i) {
        active -= active / mass * eaten / steps;
        mass -= (evaporated + eaten) / steps;
    }
    const Reading reading = read_level(cup, evaporated / days, units::days(days), mass / 45);
    CHECK(reading.strength.usual == Approx(active / mass).epsilon(1e-4));
}
