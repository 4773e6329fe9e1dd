#include "tracking/analysis/quantile.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace gallipot::analysis {

namespace {

/// Doubles are exact enough (1e-14); the default would compute in long double.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

}  // namespace

double t_quantile(double confidence, double df) {
    return quantile(boost::math::students_t_distribution<double, InDouble>(df),
                    0.5 + confidence / 2);
}

double same_mean_chance(double first, double second) {
    const double total = first + second;
    if (total == 0) return 1;
    const boost::math::binomial_distribution<double, InDouble> coin(total, 0.5);
    return std::min(1.0, 2 * cdf(coin, std::min(first, second)));
}

}  // namespace gallipot::analysis
