#pragma once

#include <map>
#include <optional>
#include <vector>

#include "tracking/analysis/between_places.hpp"
#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/gone.hpp"
#include "tracking/analysis/history.hpp"

/// What the pests did where nothing was set out.
namespace gallipot::analysis {

enum class Formula { none, henderson_tilton, abbott };

/// Why there is no figure against a control.
enum class NoControl {
    none,           ///< there is one
    not_there,      ///< the job has no control station
    not_counted,    ///< none was counted in the same rounds and the same unit
    empty_before,   ///< no pests at the controls to begin with
    empty_after,    ///< the pests left the controls too: what made them go is open
    treated_empty,  ///< none were ever seen here, so nothing could fall
    too_few         ///< too few counts from after placing for a mean of the last ones
};

/// A treated station, or all against one pest, against the controls: by how much more its numbers
/// fell than theirs from the first to the last of its counts, by the fitted lines.
struct Efficacy {
    Formula formula = Formula::none;
    NoControl why_none = NoControl::not_there;
    /// Henderson-Tilton of the fitted numbers, (1 - Ta Cb / (Tb Ca)) x 100; or Abbott's of means.
    std::optional<double> percent;
    /// Of Henderson-Tilton at 95 %.
    std::optional<Interval> interval;
    std::size_t controls = 0;                     ///< stations that it is compared with
    std::optional<Day> counted_from, counted_to;  ///< when those were, first and last
    std::size_t places = 0;  ///< that the variance between places was taken from, treated ones too
    /// Chance of a fall or rise against the controls as large; none where two places alone, whose
    /// difference may lie in the places, are compared.
    std::optional<double> chance;
    /// The fall goes beyond what the controls did, places being different, by rules::false_claims.
    bool beyond_control = false;
    /// The interval leaves out no effect.
    [[nodiscard]] bool plain() const { return interval && interval->low > 0; }
    /// The numbers came to half or less of what the controls' did: whatever they are, the bait did
    /// its part.
    [[nodiscard]] bool held_down() const;
};

/// One treated place's first and last round, which the controls' are looked for by.
struct Span {
    Day first{}, last{};
    std::optional<Day> placed;
    bool baseline = false;  ///< the first was before placing
    ExposureUnit unit = ExposureUnit::none;
    auto operator<=>(const Span&) const = default;
};
Span span_of(const Counts& counts, std::optional<LocalTime> placed);

/// The controls of one pest that were counted over the same days in the same unit.
struct Matched {
    std::vector<std::vector<std::vector<Count>>> series;  ///< of each the one group of its counts
    Arm slopes;          ///< of those that have one, at dispersion 1
    Pool before, after;  ///< their counts nearest to the first and the last round
    std::optional<Day> from, to;
    std::vector<NoneLast> nones;  ///< of each series, what it ends with

    /// The pests left all of them, and chance alone does not tell why none was seen.
    [[nodiscard]] bool empty_after(double dispersion) const;
};

/// The control stations that one pest is compared with. Only what was counted in the same unit is.
class Controls {
  public:
    /// A control station counted in several units is there once for each, with the counts in it.
    /// `same_pest`: that pest is what was counted there, and nothing else. Abbott's formula takes
    /// the controls to have held as many, which says nothing across pests: then there is none.
    explicit Controls(std::vector<Counts> stations, bool same_pest = true);

    [[nodiscard]] bool any() const { return !stations_.empty(); }
    /// What was counted at a control up to the day of placing is never taken for a count from
    /// after; a count from after stands for the one before only where there is none. Remembers what
    /// it was asked for.
    const Matched& matched(const Span& span);
    /// By Abbott's formula, the mean of the last counts against that of the controls' on those
    /// days.
    [[nodiscard]] Efficacy abbott(const Counts& treated, std::optional<LocalTime> placed) const;

  private:
    [[nodiscard]] Matched match(const Span& span) const;

    std::vector<Counts> stations_;
    bool same_pest_;
    std::map<Span, Matched> asked_;
};

}  // namespace gallipot::analysis
