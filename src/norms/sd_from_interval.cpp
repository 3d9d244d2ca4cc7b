#include <jointrom/norms/sd_from_interval.hpp>

#include <jointrom/core/uncertainty.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {

SdFromInterval sd_from_interval(double low, double high, std::size_t n, IntervalFactor factor, double rounding_step) {
    constexpr double missing = std::numeric_limits<double>::quiet_NaN();
    if (!(low <= high) || n < 2) {
        return {missing, missing, missing};
    }
    const double count = static_cast<double>(n);
    const double dof = factor == IntervalFactor::student ? count - 1.0 : std::numeric_limits<double>::infinity();
    const double per_half_width = std::sqrt(count) / student_factor(0.95, dof);
    const double half_width = (high - low) / 2.0;
    const double half_step = rounding_step / 2.0;
    return {.sd = half_width * per_half_width,
            .sd_lo = std::max(half_width - half_step, 0.0) * per_half_width,
            .sd_hi = (half_width + half_step) * per_half_width};
}

}  // namespace jointrom
