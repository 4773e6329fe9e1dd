#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tracking/analysis/site.hpp"

/// What planned counts can show, before any was made.
namespace gallipot::analysis {

/// The counts that a job plans against one pest.
struct Design {
    std::string pest;
    std::size_t treated = 0, controls = 0;
    std::vector<double> days;  ///< of the counts, from placing on; the first is the one before it
};
/// For each pest that walks about, in the order of its first station.
std::vector<Design> designs_of(const std::vector<Site>& sites);

/// What is taken for granted of pests nobody has counted yet. Our own rule.
struct Assumed {
    double first = 20;                            ///< pests in a place's first count
    double dispersion = rules::usual_dispersion;  ///< variance of a count over its mean
    double slopes_differ = 0.02;                  ///< of places, standard deviation, log a day
};

/// The chance, 0 to 1, that the report tells a fall against level controls
/// (Efficacy::beyond_control) when the treated numbers come down to `share` by the last count: of
/// the noncentral t, with the standard error of the slopes of Poisson lines and the places less two
/// as degrees of freedom. (Power of a t test: textbook. What the formula leaves out is held against
/// simulation in tests/tracking/analysis/power_test.cpp.) 0 where nothing is ever told: without
/// controls, and of one place against one.
double power(const Design& design, double share, const Assumed& assumed = {});

/// The fewest controls with which a fall to `share` is told in eight cases of ten; none where ten
/// do not.
std::optional<std::size_t> controls_wanted(Design design, double share,
                                           const Assumed& assumed = {});

}  // namespace gallipot::analysis
