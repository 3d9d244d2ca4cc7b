#include <jointrom/core/conformity.hpp>

#include <boost/math/distributions/normal.hpp>

#include <cmath>

namespace jointrom {
namespace {

double normal_probability_below(double limit, Uncertain measured) {
    if (std::isinf(limit)) {
        return limit > 0.0 ? 1.0 : 0.0;
    }
    return boost::math::cdf(boost::math::normal(measured.value, measured.u), limit);
}

}  // namespace

std::string_view name_of(Conformity conformity) {
    switch (conformity) {
    case Conformity::inside:
        return "inside";
    case Conformity::outside:
        return "outside";
    case Conformity::undecided:
        break;
    }
    return "undecided";
}

Conformity conformity(double value, Tolerance tolerance, double guard) {
    if (value >= tolerance.lower + guard && value <= tolerance.upper - guard) {
        return Conformity::inside;
    }
    if (value < tolerance.lower - guard || value > tolerance.upper + guard) {
        return Conformity::outside;
    }
    return Conformity::undecided;
}

double conformity_probability(Uncertain measured, Tolerance tolerance) {
    if (std::isnan(measured.value) || std::isnan(measured.u)) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (measured.u == 0.0) {
        return conformity(measured.value, tolerance, 0.0) == Conformity::inside ? 1.0 : 0.0;
    }
    return normal_probability_below(tolerance.upper, measured) - normal_probability_below(tolerance.lower, measured);
}

}  // namespace jointrom
