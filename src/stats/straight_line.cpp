#include "stats/straight_line.hpp"

#include "stats/distributions.hpp"

#include <jointrom/stats/descriptive.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {

MagnitudeTrend straight_line(std::span<const double> x, std::span<const double> y, double confidence) {
    constexpr double missing = std::numeric_limits<double>::quiet_NaN();
    const Description about_x = describe(x);
    const Description about_y = describe(y);
    if (x.size() < 3 || !(about_x.sd > 0.0)) {
        return {missing, {}, missing, missing};
    }
    double products = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        products += (x[i] - about_x.mean) * (y[i] - about_y.mean);
    }
    const double dof = static_cast<double>(x.size()) - 2.0;
    const double x_squares = about_x.sd * about_x.sd * (dof + 1.0);
    const double y_squares = about_y.sd * about_y.sd * (dof + 1.0);
    const double slope = products / x_squares;
    const double residual = std::max(0.0, y_squares - slope * products);
    const double slope_se = std::sqrt(residual / dof / x_squares);
    const double half = student_quantile(0.5 + confidence / 2.0, dof) * slope_se;
    return {slope,
            {slope - half, slope + half},
            about_y.mean - slope * about_x.mean,
            student_two_sided_p(slope / slope_se, dof)};
}

}  // namespace jointrom
