#include "analysis/quantile.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace gallipot::analysis {

double t_quantile(double confidence, double df) {
    return quantile(boost::math::students_t(df), 0.5 + confidence / 2);
}

double same_mean_chance(double first, double second) {
    const double total = first + second;
    if (total == 0) return 1;
    const boost::math::binomial coin(total, 0.5);
    return std::min(1.0, 2 * cdf(coin, std::min(first, second)));
}

}  // namespace gallipot::analysis
