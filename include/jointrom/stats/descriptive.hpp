#pragma once

/// \file
/// The usual summary of some numbers.

#include <cstddef>
#include <limits>
#include <span>

namespace jointrom {

struct Extremes {
    std::size_t count = 0;  ///< values that are not missing
    double min = std::numeric_limits<double>::quiet_NaN();
    double max = std::numeric_limits<double>::quiet_NaN();
};

/// The smallest and the largest value. Missing samples: skipped.
[[nodiscard]] Extremes extremes(std::span<const double> values);

struct Description {
    std::size_t count = 0;    ///< values that are not missing
    std::size_t missing = 0;  ///< values that are
    double mean = std::numeric_limits<double>::quiet_NaN();
    double sd = std::numeric_limits<double>::quiet_NaN();  ///< standard deviation of a sample, with n - 1
    double min = std::numeric_limits<double>::quiet_NaN();
    double max = std::numeric_limits<double>::quiet_NaN();
};

/// Count, mean, standard deviation and extremes.
///
/// Method: two passes; both sums are corrected by the rounding that the mean left behind. The order of the values makes
/// no difference, not even in the last bit. Missing samples: skipped and counted.
///
/// \return mean, minimum and maximum are missing for no values, the standard deviation for fewer than two; mean and
///         standard deviation when a value is infinite or the sum of values or squares would be
/// \par Accuracy 1e-13 relative of the certified values of NIST StRD, where the data can be represented
/// \par Reference T. F. Chan, G. H. Golub and R. J. LeVeque 1983, Am Stat 37:242 (corrected two-pass algorithm)
[[nodiscard]] Description describe(std::span<const double> values);

}  // namespace jointrom
