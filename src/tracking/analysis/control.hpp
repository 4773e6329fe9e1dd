#pragma once

#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "tracking/analysis/decline.hpp"
#include "tracking/analysis/efficacy.hpp"
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
    treated_empty,  ///< none were seen here at the first count, so nothing could fall
    several_pests,  ///< of all stations together: each pest has controls of its own
};

/// A treated station, or all together, against the pooled controls.
struct Efficacy {
    Formula formula = Formula::none;
    NoControl why_none = NoControl::not_there;
    std::optional<double> percent;
    /// What went into it, as with the exposure of each station's first count; of Abbott's, what
    /// was seen in one minute or trap night, means a station.
    BeforeAfter counts;
    std::size_t controls = 0;  ///< stations pooled
    /// Henderson-Tilton's figure at 95 %, the counts taken as Poisson: log(ratio) with variance
    /// the sum of 1/(count + 1/2) (delta method, a half added for zeros; textbook, recalled), of
    /// the pests as counted.
    std::optional<Interval> interval;
    /// The fall goes beyond what the control did, by that interval.
    [[nodiscard]] bool beyond_control() const { return interval && interval->low > 0; }
};

/// The control stations that one pest is compared with. Only what was counted in the same unit is.
class Controls {
  public:
    /// A control station counted in several units is there once for each, with the counts in it.
    /// `same_pest`: that pest is what was counted there, and nothing else. Abbott's formula takes
    /// the controls to have held as many, which says nothing across pests: then there is none.
    explicit Controls(std::vector<Counts> stations, bool same_pest = true);

    [[nodiscard]] bool any() const { return !stations_.empty(); }
    /// Henderson-Tilton from the first and last of the totals; Abbott, by rates, when there is only
    /// one of them, or the controls have no count from the time of the first. What was counted at a
    /// control up to the day of placing is never taken for a count from after, and a count from
    /// after for the one before only where there is none. `placed` is that of the treated station.
    /// Remembers pairs of dates it was asked for.
    [[nodiscard]] Efficacy against(const Counts& treated, std::optional<LocalTime> placed);
    /// First and last totals of all treated and of the controls, each summed: Henderson-Tilton
    /// only. `placed`: when the first of the treated was set down.
    [[nodiscard]] Efficacy against_all(const Total& treated_before, const Total& treated_after,
                                       std::optional<LocalTime> placed) const;

  private:
    struct Pooled {
        Pool before, after;  ///< of those counted both times
        double rates_after = 0;
        std::size_t stations_after = 0;
    };
    /// What is asked: the days of the two rounds, that of placing, whether the first round was
    /// before it, and the unit.
    using Question = std::tuple<Day, Day, std::optional<Day>, bool, ExposureUnit>;
    [[nodiscard]] Pooled pool(const Question& question) const;

    std::vector<Counts> stations_;
    bool same_pest_;
    std::map<Question, Pooled> asked_;
};

}  // namespace gallipot::analysis
