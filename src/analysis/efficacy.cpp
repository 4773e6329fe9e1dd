#include "analysis/efficacy.hpp"

namespace gallipot::analysis {

std::optional<double> percent_reduction(double before, double after) {
    if (before == 0) return std::nullopt;
    return (before - after) / before * 100;
}

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

std::optional<double> abbott_mortality(double treated_percent, double control_percent) {
    if (control_percent == 100) return std::nullopt;
    return (treated_percent - control_percent) / (100 - control_percent) * 100;
}

std::optional<double> sun_shepard(double treated_mortality_percent, double control_change_percent) {
    if (control_change_percent == -100) return std::nullopt;
    return (treated_mortality_percent + control_change_percent) / (100 + control_change_percent) *
           100;
}

}  // namespace gallipot::analysis
