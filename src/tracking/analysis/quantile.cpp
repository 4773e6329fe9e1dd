#include "tracking/analysis/quantile.hpp"

#include <algorithm>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>

namespace gallipot::analysis {

namespace {

/// Doubles are exact enough (1e-14); the default would compute in long double.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

}  // namespace

double t_quantile(double confidence, double df) {
    return quantile(boost::math::students_t_distribution<double, InDouble>(df),
                    0.5 + confidence / 2);
}

double t_chance(double t, double df) {
    if (!std::isfinite(t)) return 1;
    const boost::math::students_t_distribution<double, InDouble> student(df);
    return 2 * cdf(complement(student, std::abs(t)));
}

double t_power(double noncentrality, double df, double confidence) {
    const boost::math::non_central_t_distribution<double, InDouble> shifted(df, noncentrality);
    return cdf(complement(shifted, t_quantile(confidence, df)));
}

double same_mean_chance(double first, double second, double first_share, double dispersion) {
    const double total = (first + second) / dispersion;
    if (total == 0) return 1;
    // The distribution function of the binomial, which serves for parts of a pest as well.
    const auto so_few = [&](double part, double share) {
        return part >= total ? 1 : boost::math::ibetac(part + 1, total - part, share, InDouble());
    };
    return std::min(1.0, 2 * std::min(so_few(first / dispersion, first_share),
                                      so_few(second / dispersion, 1 - first_share)));
}

double none_chance(double expected, double dispersion) {
    constexpr double hardly = 1e-6;
    const double more = dispersion - 1;
    return std::exp(-expected * (more < hardly ? 1 : std::log(dispersion) / more));
}

}  // namespace gallipot::analysis
