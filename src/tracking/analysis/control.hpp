#pragma once

#include <map>
#include <optional>
#include <utility>
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
    not_counted,    ///< none was counted in the same rounds
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
    BeforeAfter counts;        ///< what went into it; of Abbott's, means a station
    std::size_t controls = 0;  ///< stations pooled
    /// Henderson-Tilton's figure at 95 %, the counts taken as Poisson: log(ratio) with variance
    /// the sum of 1/(count + 1/2) (delta method, a half added for zeros; textbook, recalled).
    std::optional<Interval> interval;
    /// The fall goes beyond what the control did, by that interval.
    [[nodiscard]] bool beyond_control() const { return interval && interval->low > 0; }
};

/// The control stations that one pest is compared with, each with its totals in order of time.
class Controls {
  public:
    /// `same_pest`: that pest is what was counted there, and nothing else. Abbott's formula takes
    /// the controls to have held as many, which says nothing across pests: then there is none.
    explicit Controls(std::vector<std::vector<Total>> stations, bool same_pest = true);

    [[nodiscard]] bool any() const { return !stations_.empty(); }
    /// Henderson-Tilton from the first and last of `totals`; Abbott when there is only one of them,
    /// or the controls have no count from the time of the first. `placed`: a single count made by
    /// then says nothing of what came after. Remembers pairs of dates it was asked for.
    [[nodiscard]] Efficacy against(const std::vector<Total>& totals,
                                   std::optional<LocalTime> placed);
    /// First and last counts of the controls and of all `treated`, each summed: Henderson-Tilton
    /// only.
    [[nodiscard]] Efficacy against_all(double treated_before, double treated_after) const;

  private:
    struct Pooled {
        double before = 0, after = 0;
        std::size_t stations = 0;  ///< counted both times
        double after_only = 0;
        std::size_t stations_after = 0;
    };
    [[nodiscard]] Pooled pool(Day before, Day after) const;

    std::vector<std::vector<Total>> stations_;
    bool same_pest_;
    std::map<std::pair<Day, Day>, Pooled> asked_;
};

}  // namespace gallipot::analysis
