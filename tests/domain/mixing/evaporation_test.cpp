#include "domain/mixing/evaporation.hpp"

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

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

/// What a container of so much (mL, as usually packed) of each holds.
struct Filled {
    std::vector<Component> components;
    std::vector<units::Mass> masses;
};
Filled filled(const std::vector<std::pair<const char*, double>>& grams) {
    Filled it;
    for (const auto& [name, g] : grams) {
        diag::Diagnostics out;
        job::Ingredient ingredient;
        ingredient.name = name;
        it.components.push_back(*resolve({}, ingredient, job::Form::liquid, out));
        it.masses.push_back(units::g(g));
    }
    return it;
}
Solution solution(const std::vector<std::pair<const char*, double>>& grams) {
    const Filled it = filled(grams);
    return Solution(it.components, it.masses);
}

/// 45 g of water with 0.65 % of boric acid, so thin that it dries like water.
constexpr double dry_air = 0.5;
Drying thin(double g_per_day) {
    return Drying(solution({{"water", 45 * 0.9935}, {"boric acid", 45 * 0.0065}}), units::g(45),
                  0.0065, {g_per_day / 2, g_per_day, g_per_day * 2}, dry_air);
}

}  // namespace

TEST_CASE("an open surface loses what Carrier's equation gives, times what still water loses") {
    // By hand for 20 C and half saturated air: 2339 Pa and 1169 Pa (steam tables, memory),
    // 95 Btu/(h ft2 inHg) = 0.0885 W/(m2 Pa), 2454 kJ/kg:
    // 0.74 x 0.0885 x 1169 / 2454000 = 3.12e-5 kg/(m2 s) = 2.70 kg/m2 a day, 2.7 mm.
    const auto loss = pure_water_loss_g_per_day(open_surface(100));
    CHECK(loss.usual == Approx(27.0).epsilon(0.01));
    CHECK(loss.low == Approx(loss.usual / 2));
    CHECK(loss.high == Approx(loss.usual * 2));
}

TEST_CASE("holes let through what diffusion allows") {
    // By hand, four holes of 6 mm in a wall of 1 mm: 1/(2r) = 166.7, wall/(pi r2) = 35.4 per
    // metre, D = 2.47e-5 m2/s: 4 x 1.22e-7 m3/s; 1169 Pa is 8.64 g/m3 at 20 C: 0.365 g a day.
    CHECK(pure_water_loss_g_per_day(holes(4, 6)).usual == Approx(0.365).epsilon(0.01));
    // Small holes lose by their width, not their area (Brown and Escombe 1900): the same area in
    // more, smaller holes loses more.
    CHECK(pure_water_loss_g_per_day(holes(16, 3)).usual >
          pure_water_loss_g_per_day(holes(4, 6)).usual);
}

TEST_CASE("warmth makes it faster, cold slower") {
    Exposure it = open_surface(20);
    const double room = pure_water_loss_g_per_day(it).usual;
    it.surface = {30};
    // 4246 Pa - 1169 Pa over 1169 Pa, latent heat 1 % less.
    CHECK(pure_water_loss_g_per_day(it).usual / room == Approx(2.66).epsilon(0.01));
    it.surface = {10};
    CHECK(pure_water_loss_g_per_day(it).usual / room == Approx(0.52).epsilon(0.02));
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

TEST_CASE("water activity of sugar, syrup, honey and glycerol") {
    // Sucrose by isopiestic measurement: 1, 2, 3, 4 and 5 mol in 1 kg of water (Robinson and
    // Stokes, Electrolyte Solutions; memory).
    const double molal[][2] = {{1, 0.9806}, {2, 0.9581}, {3, 0.9328}, {4, 0.9057}, {5, 0.8776}};
    for (const auto& [moles, activity] : molal) {
        INFO(moles << " molal");
        CHECK(solution({{"water", 1000}, {"sugar", 342.297 * moles}}).water_activity() ==
              Approx(activity).margin(0.004));
    }
    // Saturated: what is more than 203.9 g in 100 g stays a crystal. 0.85 to 0.86 (handbooks of
    // food science; memory).
    CHECK(solution({{"water", 100}, {"sugar", 300}}).water_activity() ==
          solution({{"water", 100}, {"sugar", 203.9}}).water_activity());
    CHECK(solution({{"water", 100}, {"sugar", 300}}).water_activity() ==
          Approx(0.855).margin(0.01));
    // 706 flower honeys of 15.0 to 20.4 % water: 0.470 to 0.563 (found: Food Sci. Technol., Turkish
    // flower and pine honeys, 2017).
    const double honey = solution({{"honey", 100}}).water_activity();
    CHECK(honey > 0.470);
    CHECK(honey < 0.563);
    // Corn syrup with 14, 20, 30 and 54 g of water on 100 g of solids: 0.6, 0.7, 0.8, 0.9 (Sloan
    // and Labuza 1975, found). Ours has 22 g in 100 g; the rest is added.
    const double moisture[][2] = {{30, 0.8}, {54, 0.9}};
    for (const auto& [water, activity] : moisture) {
        const double added = water * 0.78 - 22;
        CHECK(solution({{"corn syrup", 100}, {"water", added}}).water_activity() ==
              Approx(activity).margin(0.02));
    }
    // Half of glycerol lies near 0.82 to 0.83, and where it is even with air at 50 % some 77 to 81
    // % is glycerol (ASTM D5032's solutions; memory).
    CHECK(solution({{"glycerol", 50}, {"water", 50}}).water_activity() ==
          Approx(0.815).margin(0.02));
    CHECK(solution({{"glycerol", 75}, {"water", 25}}).water_activity() > 0.5);
    CHECK(solution({{"glycerol", 81}, {"water", 19}}).water_activity() < 0.5);
    CHECK(solution({{"glycerol", 100}}).water_activity() == 0);
    CHECK(solution({{"water", 100}}).water_activity() == 1);
    // Raoult: 0.1 mol of boric acid in 1 kg of water (55.51 mol).
    CHECK(solution({{"water", 1000}, {"boric acid", 6.1831}}).water_activity() ==
          Approx(55.51 / 55.61).epsilon(1e-5));
}

TEST_CASE("several solutes: Norrish's sum is near Ross's product") {
    // Ross 1975: the product of the activities that each solute would have alone in all the water.
    const double both =
        solution({{"water", 100}, {"sugar", 80}, {"glycerol", 40}}).water_activity();
    const double sugar = solution({{"water", 100}, {"sugar", 80}}).water_activity();
    const double glycerol = solution({{"water", 100}, {"glycerol", 40}}).water_activity();
    CHECK(both == Approx(sugar * glycerol).margin(0.015));
}

TEST_CASE("the room's air and the surface are even at half, less where it is warm") {
    Exposure it = open_surface(20);
    CHECK(activity_of_air(it) == Approx(0.5));
    it.surface = {30};
    CHECK(activity_of_air(it) == Approx(1169.0 / 4246).epsilon(0.01));
    it.surface = {10};
    CHECK(activity_of_air(it) == Approx(0.5));
}

TEST_CASE("strength grows as water leaves, and the water brings it back") {
    // 9 g of 45 g gone: 45/36 times as strong.
    CHECK(thin(1).strength_after(units::days(9)).usual == Approx(0.0065 * 45 / 36).epsilon(2e-3));
    CHECK(units::in_mL(thin(1).water_to_restore(units::days(9)).usual) == Approx(9).epsilon(5e-3));
    // Half and twice the loss.
    CHECK(thin(1).strength_after(units::days(9)).low ==
          Approx(thin(0.5).strength_after(units::days(9)).usual));
    CHECK(thin(1).strength_after(units::days(9)).high ==
          Approx(thin(2).strength_after(units::days(9)).usual));
    CHECK(thin(0).strength_after(units::days(30)).usual == Approx(0.0065));
    // 1 % is passed when the mass is down to 0.65 of what it was: 15.75 g.
    CHECK(thin(0.5).days_until(0.01)->usual == Approx(15.75 / 0.5).epsilon(5e-3));
    CHECK(thin(0.5).days_until(0.01)->low == Approx(15.75).epsilon(5e-3));
    CHECK(thin(0.5).days_until(0.01)->high == Approx(63).epsilon(5e-3));
    CHECK(thin(0.5).days_until(0.005)->usual == 0);
    CHECK(thin(0.5).days_until(0.0065)->usual == 0);
    CHECK_FALSE(thin(0).days_until(0.01));
    const double days = thin(0.5).days_until(0.01)->usual;
    CHECK(thin(0.5).strength_after(units::days(days)).usual == Approx(0.01).epsilon(1e-6));
}

TEST_CASE("what holds water back is never as strong as it could be without its water") {
    // Honey with 1 % of boric acid, in the open for a year: its activity falls from 0.53 to 0.5, by
    // when it has lost 2 of its 17 %. It is not thinned.
    const Drying honey(solution({{"honey", 99}, {"boric acid", 1}}), units::g(100), 0.01, {1, 2, 4},
                       dry_air);
    CHECK(honey.loss_g_per_day().usual < 0.15);
    CHECK(honey.strength_after(units::days(365)).high < 0.0105);
    CHECK(honey.water() < units::g(4));
    CHECK(honey.water_to_restore(units::days(30)).high == units::Volume{});
    CHECK_FALSE(honey.days_until(0.0115));
    // Glycerol has none to lose, nor has a mix of it that is even with the air.
    const Drying glycerol(solution({{"glycerol", 85}, {"water", 15}, {"boric acid", 1}}),
                          units::g(101), 0.0099, {1, 2, 4}, dry_air);
    CHECK(glycerol.water() == units::Mass{});
    CHECK(glycerol.loss_g_per_day().high == 0);
    CHECK(glycerol.strength_after(units::days(365)).high == Approx(0.0099));
    CHECK_FALSE(glycerol.days_until(0.0100));
    const LevelEstimate half = glycerol.read_level(units::days(30), 0.5);
    CHECK(half.strength.high == Approx(0.0099));
    CHECK(half.add_water.high == units::Volume{});
    // In the sun the air is dry for it, and it does lose.
    const Drying warm(solution({{"glycerol", 85}, {"water", 15}, {"boric acid", 1}}), units::g(101),
                      0.0099, {1, 2, 4}, 0.275);
    CHECK(warm.water() > units::g(2));
    // Sugar crystallises, which keeps the rest at 0.855: all of its water leaves.
    const Drying syrup(solution({{"water", 79}, {"sugar", 20}, {"boric acid", 1}}), units::g(100),
                       0.01, {1, 2, 4}, dry_air);
    CHECK(syrup.loss_g_per_day().usual == Approx(2 * 0.965).epsilon(5e-3));
    CHECK(units::in_g(syrup.water()) == Approx(79).epsilon(1e-4));
    CHECK(syrup.strength_after(units::days(3650)).usual == Approx(0.01 * 100 / 21).epsilon(1e-3));
}

namespace {

/// A plain reference: small steps of evaporation and of eating, both steady but for what the water
/// left allows.
struct Stepped {
    double strength = 0, level = 0;
};
Stepped stepped(std::vector<std::pair<const char*, double>> grams, double strength,
                double g_per_day, double air, double eaten_part, double days) {
    double water = 0, all = 0;
    for (const auto& [name, g] : grams) {
        all += g;
        if (std::string(name) == "water") water = g;
    }
    const double dry = all - water, full = units::in_mL(solution(grams).volume());
    double part = 1, left = water;  // left: water beside all that was filled in and not eaten
    const int steps = 20000;
    for (int i = 0; i < steps; ++i) {
        for (auto& [name, g] : grams)
            if (std::string(name) == "water") g = left;
        const double activity = solution(grams).water_activity();
        left -= g_per_day * std::max(activity - air, 0.0) / (1 - air) / part * days / steps;
        part -= eaten_part / steps;
    }
    for (auto& [name, g] : grams)
        if (std::string(name) == "water") g = left;
    return {strength * all / (dry + left), part * units::in_mL(solution(grams).volume()) / full};
}

}  // namespace

TEST_CASE("a level is a volume: a steady loss by both ways adds up step by step to the same") {
    const std::vector<std::pair<const char*, double>> grams = {
        {"water", 33}, {"sugar", 11.7}, {"boric acid", 0.3}};
    for (const double eaten : {0.0, 0.3, 0.6}) {
        INFO(eaten);
        const Stepped plain = stepped(grams, 0.3 / 45, 0.6, dry_air, eaten, 14);
        const Drying drying(solution(grams), units::g(45), 0.3 / 45, {0.3, 0.6, 1.2}, dry_air);
        const LevelEstimate reading = drying.read_level(units::days(14), plain.level);
        CHECK(reading.strength.usual == Approx(plain.strength).epsilon(5e-4));
    }
}

TEST_CASE("a level that was read bounds the strength") {
    const LevelEstimate half = thin(0.5).read_level(units::days(10), 0.5);
    CHECK(half.strength.low == Approx(0.0065));
    // Half the volume of water gone: twice as strong, and as much water brings it back.
    CHECK(half.strength.high == Approx(0.013).epsilon(5e-3));
    CHECK(half.add_water.low == units::Volume{});
    CHECK(units::in_mL(half.add_water.high) == Approx(22.5).epsilon(5e-3));
    CHECK(half.strength.usual > half.strength.low);
    CHECK(half.strength.usual < half.strength.high);
    CHECK(half.add_water.usual > half.add_water.low);
    CHECK(half.add_water.usual < half.add_water.high);
    // By volume, not by mass: of a thick syrup half the volume left is more than half the mass, and
    // all its water is not half its volume, so some of it was eaten.
    const Filled thick = filled({{"water", 20}, {"sugar", 30}, {"boric acid", 0.4}});
    const Drying syrup(Solution(thick.components, thick.masses), units::g(50.4), 0.4 / 50.4,
                       {0.5, 1, 2}, dry_air);
    CHECK(syrup.read_level(units::days(400), 0.3).strength.high ==
          Approx(0.4 / 30.4).epsilon(1e-3));
    // 39.0 mL as filled; 8 g of water less are 8.0 mL.
    const double full = units::in_mL(Solution(thick.components, thick.masses).volume());
    CHECK(syrup.read_level(units::days(400), (full - 8.0) / full).strength.high ==
          Approx(0.4 / 42.4).epsilon(5e-3));
    // Untouched is as it was, and so is more than full.
    CHECK(thin(0.5).read_level(units::days(10), 1).strength.high == Approx(0.0065));
    CHECK(thin(0.5).read_level(units::days(10), 1.04).strength.low == Approx(0.0065));
    CHECK(thin(0.5).read_level(units::days(10), 1.04).strength.high == Approx(0.0065));
    // It dried slower than was estimated: then all that is gone is water.
    CHECK(thin(50).read_level(units::days(10), 0.9).strength.usual ==
          Approx(0.0065 / 0.9).epsilon(2e-3));
    CHECK(std::isfinite(thin(1).read_level(units::days(100), 0).strength.high));
}
