#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/units/quantity.hpp"
#include "domain/mixing/component.hpp"

/// What dissolves, what does not, and how much room it all takes.
namespace gallipot::mixing {

/// The temperature at which cards and volumes are meant.
inline constexpr units::Celsius room_temperature{20};

/// The water of a mix and what there is to dissolve in it. Sugar, each other substance and the
/// borates as a group are held against the water on their own; that one changes what the other
/// dissolves is left out (sugar helps borates, so beside it the figures are cautious), but for
/// glycerol, in which borates dissolve well: it counts as a solvent for them
/// (reference/glycerol.hpp), with or without water.
///
/// Borates share their ions, so their parts of what would saturate the water are added up. Borax
/// and boric acid together form octaborate (Na2B4O7 + 4 H3BO3 = Na2B8O13 + 6 H2O), which dissolves
/// better than either: as much of the two as can pair is counted as octaborate, the excess of one
/// as itself. Cautious still: 20 % borax with 15 % boric acid is published as staying clear down to
/// 4.4 C (NZ Farm Forestry Association), and comes out here as clear from 55 C; each salt against
/// its own table would say 90 C.
class Solution {
  public:
    /// Both spans are of one length. Water in syrups and honey counts where the table knows it.
    Solution(std::span<const Component> components, std::span<const units::Mass> masses);

    /// Whether a table may be off to the worse side, so that less dissolves.
    enum class Tables { as_they_are, cautiously };

    /// How much there is of what dissolves worst, over what the water can hold: 1 is saturated, 0
    /// nothing to dissolve, infinite with nothing to dissolve it in.
    [[nodiscard]] double saturation(units::Celsius temperature, Tables tables) const;

    /// The lowest temperature at which everything stays dissolved, tables read cautiously, so it is
    /// both how warm the water must be and where crystals come back on cooling. None when it all
    /// dissolves at 0 C, and when it never does.
    [[nodiscard]] std::optional<units::Celsius> clear_from() const;

    /// The saturation, read cautiously, where the tables end: 100 C for most, 50 C for baking soda,
    /// which falls apart when hotter.
    [[nodiscard]] double hottest_saturation() const;

    /// Not even there.
    [[nodiscard]] bool never_clear() const { return hottest_saturation() > 1; }

    /// Borax and boric acid are both there.
    [[nodiscard]] bool borates_together() const;

    /// How active its water is at room temperature: its vapour pressure over that of pure water.
    /// Norrish's equation for several solutes (1966): ln a = ln x - (sum of sqrt(K) y)^2, where x
    /// is the share of water and y that of each solute in all moles, and K its constant; Raoult's
    /// law for what has none. What is beyond its solubility is a crystal and does not count. 0
    /// without water.
    [[nodiscard]] double water_activity() const;

    /// Water that it holds.
    [[nodiscard]] units::Mass water() const { return units::Mass::si(water_); }

    /// The same with so much water less.
    [[nodiscard]] Solution dried_by(units::Mass lost) const;

    /// Room taken at room temperature: liquids by their density, what is dissolved by its apparent
    /// specific volume (sugar's by the share it is of sugar and water), the rest by true density.
    [[nodiscard]] units::Volume volume() const;

  private:
    struct Solute {
        const reference::Substance* substance = nullptr;
        double mass = 0;    ///< kg, in all
        double powder = 0;  ///< kg of that, which came as a powder
    };
    void add(const Part& part, double mass);
    [[nodiscard]] double borate_saturation(units::Celsius temperature, Tables tables) const;
    /// Which part of a solute is dissolved at room temperature.
    [[nodiscard]] double dissolved_part(const Solute& solute) const;
    [[nodiscard]] double saturation_of(const Solute& solute, units::Celsius temperature,
                                       Tables tables) const;
    [[nodiscard]] units::Celsius end_of_tables() const;

    /// What mixes with water in any amount and holds it back: glycerol, the solids of a syrup.
    struct Humectant {
        double amount = 0;  ///< mol
        double norrish = 0;
    };

    double water_ = 0;         ///< kg
    double glycerol_ = 0;      ///< kg
    double fixed_volume_ = 0;  ///< m3 of what is liquid or never dissolves
    std::vector<Solute> solutes_;
    std::vector<Humectant> humectants_;
};

/// Room that a mix takes when it is ready: of a dry mix the bulk volumes added up, else what
/// Solution::volume says. Fine powder fills the gaps of coarse, so a dry mix may come out smaller.
units::Volume finished_volume(std::span<const Component> components,
                              std::span<const units::Mass> masses, job::Form form);

}  // namespace gallipot::mixing
