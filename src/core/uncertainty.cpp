#include <jointrom/core/uncertainty.hpp>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {

double BudgetLine::contribution() const {
    return std::abs(sensitivity) * u;
}

double Budget::standard_uncertainty() const {
    double sum = 0.0;
    for (const BudgetLine& line : lines_) {
        sum += line.contribution() * line.contribution();
    }
    return std::sqrt(sum);
}

double Budget::effective_degrees_of_freedom() const {
    double denominator = 0.0;
    for (const BudgetLine& line : lines_) {
        denominator += std::pow(line.contribution(), 4) / line.degrees_of_freedom;
    }
    return denominator > 0.0 ? std::pow(standard_uncertainty(), 4) / denominator
                             : std::numeric_limits<double>::infinity();
}

double Budget::coverage_factor(double level) const {
    const double exact = effective_degrees_of_freedom();
    // A hair of tolerance, so that 14 - 1e-12 counts as 14.
    return student_factor(level, std::isfinite(exact) ? std::max(1.0, std::floor(exact + 1e-9)) : exact);
}

double Budget::expanded_uncertainty(double level) const {
    return coverage_factor(level) * standard_uncertainty();
}

double student_factor(double level, double degrees_of_freedom) {
    const double upper_tail = (1.0 - level) / 2.0;
    if (!std::isfinite(degrees_of_freedom)) {
        return boost::math::quantile(boost::math::complement(boost::math::normal(), upper_tail));
    }
    return boost::math::quantile(boost::math::complement(boost::math::students_t(degrees_of_freedom), upper_tail));
}

double rectangular_u(double half_width) {
    return half_width / std::sqrt(3.0);
}

}  // namespace jointrom
