#include "stats/distributions.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <cmath>
#include <limits>

namespace jointrom {
namespace {

/// Without the extended precision that Boost takes by default, which is several times as slow.
using Plain = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
using StudentsT = boost::math::students_t_distribution<double, Plain>;
using NonCentralT = boost::math::non_central_t_distribution<double, Plain>;
using FisherF = boost::math::fisher_f_distribution<double, Plain>;
using ChiSquared = boost::math::chi_squared_distribution<double, Plain>;

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double largest_exact_t = 30.0;
constexpr double largest_exact_dof = 1000.0;

/// The noncentrality for which a t of `t` or less has probability `p`, which falls with the noncentrality.
double noncentrality_for(double t, double dof, double p, double reach) {
    double low = t - reach;
    double high = t + reach;
    for (int step = 0; step < 60; ++step) {
        const double middle = (low + high) / 2.0;
        const bool too_low = boost::math::cdf(NonCentralT(dof, middle), t) > p;
        (too_low ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

}  // namespace

double student_quantile(double p, double dof) {
    return boost::math::quantile(StudentsT(dof), p);
}

double student_two_sided_p(double t, double dof) {
    if (std::isnan(t)) {
        return missing;
    }
    return std::isinf(t) ? 0.0 : 2.0 * boost::math::cdf(StudentsT(dof), -std::abs(t));
}

double fisher_quantile(double p, double dof1, double dof2) {
    return boost::math::quantile(FisherF(dof1, dof2), p);
}

double fisher_upper_p(double f, double dof1, double dof2) {
    if (std::isnan(f)) {
        return missing;
    }
    return std::isinf(f) ? 0.0 : boost::math::cdf(boost::math::complement(FisherF(dof1, dof2), f));
}

ConfidenceInterval sd_interval(double sd, double dof, double confidence) {
    const ChiSquared distribution(dof);
    const double tail = (1.0 - confidence) / 2.0;
    return {sd * std::sqrt(dof / boost::math::quantile(boost::math::complement(distribution, tail))),
            sd * std::sqrt(dof / boost::math::quantile(distribution, tail))};
}

ConfidenceInterval noncentrality_interval(double t, double dof, double confidence) {
    if (!std::isfinite(t)) {
        return {};
    }
    const double tail = (1.0 - confidence) / 2.0;
    const double z = -boost::math::quantile(boost::math::normal(), tail);
    const double half = z * std::sqrt(1.0 + t * t / (2.0 * dof));
    if (std::abs(t) > largest_exact_t || dof > largest_exact_dof) {
        return {t - half, t + half};
    }
    const double reach = 3.0 * half + 3.0;
    return {noncentrality_for(t, dof, 1.0 - tail, reach), noncentrality_for(t, dof, tail, reach)};
}

double hedges_correction(double dof) {
    return 1.0 / (std::sqrt(dof / 2.0) * boost::math::tgamma_delta_ratio((dof - 1.0) / 2.0, 0.5));
}

}  // namespace jointrom
