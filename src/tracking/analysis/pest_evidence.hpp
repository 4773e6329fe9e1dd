#pragma once

#include <optional>
#include <vector>

#include "tracking/analysis/control.hpp"
#include "tracking/analysis/history.hpp"
#include "tracking/analysis/trend.hpp"

/// One model for all that was counted of one pest: a log-linear line for each place, the scatter
/// about the lines estimated from all of them, what places differ by estimated between them, and
/// what is claimed of many stations held against how many there are. README.md tells it in words.
namespace gallipot::analysis {

/// A station that something is set out at against the pest.
struct TreatedPlace {
    const Counts* counts = nullptr;
    std::optional<LocalTime> placed;
    /// From when on a result usually shows; none where nobody knows.
    std::optional<Day> result_by;
    /// None seen for so many days at so many rounds is enough without any doubt about chance.
    int gone_days = 0, empty_counts = 0;
};

struct PestEvidence {
    Dispersion dispersion;  ///< about the places' own lines
    double between = 0;     ///< variance between places of their slopes, (log a day) squared
    std::vector<Trend> trends;
    std::vector<Efficacy> effects;
    Trend trend;      ///< of all places together
    Efficacy effect;  ///< likewise
};

/// In the order of `places`; `controls` are those of the pest.
PestEvidence evidence_of(const std::vector<TreatedPlace>& places, Controls& controls);

/// Of a control, by its own scatter alone.
Trend control_trend(const Counts& counts);

}  // namespace gallipot::analysis
