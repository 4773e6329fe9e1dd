#include "tracking/analysis/efficacy.hpp"

namespace gallipot::analysis {

std::optional<double> percent_change(double before, double after) {
    if (before == 0) return std::nullopt;
    return (after - before) / before * 100;
}

std::optional<double> henderson_tilton(const BeforeAfter& c) {
    if (c.treated_before == 0 || c.control_before == 0 || c.control_after == 0) return std::nullopt;
    return (1 - c.treated_after * c.control_before / (c.treated_before * c.control_after)) * 100;
}

std::optional<double> abbott(double treated_after, double control_after) {
    if (control_after == 0) return std::nullopt;
    return (1 - treated_after / control_after) * 100;
}

}  // namespace gallipot::analysis
