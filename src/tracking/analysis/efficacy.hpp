#pragma once

#include <optional>

/// How well a treatment worked, by the published formulas. All take totals of counted pests, 0 or
/// more, and give percent. An effect is 100 when all are gone, negative when there are more.
/// Nothing is clipped. A formula gives nothing where it would divide by zero.
namespace gallipot::analysis {

/// Counts of live pests at treated and control places, before the treatment and after it.
struct BeforeAfter {
    double treated_before = 0;  ///< Tb
    double treated_after = 0;   ///< Ta
    double control_before = 0;  ///< Cb
    double control_after = 0;   ///< Ca
};

/// (last - first)/first x 100, no regard to a control: -97.5 when of 40 one is left.
std::optional<double> percent_change(double before, double after);

/// (1 - Ta Cb / (Tb Ca)) x 100, for live counts where the numbers differed at the start.
/// Henderson C.F., Tilton E.W. 1955, J. Econ. Entomol. 48:157-161 (reference recalled; the formula
/// found in public code and pages). Nothing when any of Tb, Cb and Ca is zero.
std::optional<double> henderson_tilton(const BeforeAfter& counts);

/// (1 - Ta/Ca) x 100, where only after-counts exist: holds when there were as many at the start.
/// Abbott W.S. 1925, J. Econ. Entomol. 18(2):265-267 (formula found). Nothing when Ca is zero.
std::optional<double> abbott(double treated_after, double control_after);

}  // namespace gallipot::analysis
