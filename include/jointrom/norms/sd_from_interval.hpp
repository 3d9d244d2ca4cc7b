#pragma once

/// \file
/// The spread of people, got back from the confidence interval of their mean.

#include <cstddef>

namespace jointrom {

/// Which factor the authors multiplied the standard error with.
enum class IntervalFactor {
    normal,  ///< 1.959964
    student  ///< Student quantile with n - 1 degrees of freedom
};

struct SdFromInterval {
    double sd;
    double sd_lo;  ///< when both limits were rounded so that the true interval is narrower
    double sd_hi;  ///< when it is wider
};

/// Standard deviation of n values from the 95 % confidence interval of their mean.
///
/// Method: sd = (high - low)/2/factor * sqrt(n). Rounding of each limit to `rounding_step` can make the interval wider
/// or narrower by one step, which gives the span; sd_lo is at least 0.
/// \param low,high limits, in any unit; low <= high
/// \param n        number of values; at least 2
/// \param rounding_step e.g. 0.1 for limits printed with one decimal; 0 for limits that are exact
/// \return         NaN where the preconditions do not hold
[[nodiscard]] SdFromInterval sd_from_interval(double low, double high, std::size_t n,
                                              IntervalFactor factor = IntervalFactor::normal,
                                              double rounding_step = 0.1);

}  // namespace jointrom
