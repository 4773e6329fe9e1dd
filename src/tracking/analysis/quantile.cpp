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

double same_mean_chance(double first, double second, double first_share) {
    using Binomial = boost::math::binomial_distribution<double, InDouble>;
    const double total = first + second;
    if (total == 0) return 1;
    const double so_few = cdf(Binomial(total, first_share), first);
    const double so_many = cdf(Binomial(total, 1 - first_share), second);
    return std::min(1.0, 2 * std::min(so_few, so_many));
}

}  // namespace gallipot::analysis
