#pragma once

/// \file
/// Sample quantiles. There are nine definitions in use; a result should name the one that it was found by.

#include <span>
#include <vector>

namespace jointrom {

/// The definitions by their number in Hyndman and Fan 1996. 1 to 3 give sample values or their means, 4 to 9
/// interpolate.
enum class QuantileDefinition {
    hyndman_fan_1 = 1,  ///< inverse of the distribution function
    hyndman_fan_2,      ///< the same, averaged at its steps
    hyndman_fan_3,      ///< nearest even order statistic
    hyndman_fan_4,      ///< distribution function, interpolated
    hyndman_fan_5,      ///< midway between its steps
    hyndman_fan_6,      ///< (n + 1) p
    hyndman_fan_7,      ///< (n - 1) p + 1: the default of most programming languages, and here
    hyndman_fan_8,      ///< unbiased for the median, whatever the distribution
    hyndman_fan_9       ///< nearly unbiased for normal values
};

/// Quantiles of `values` at each of `probabilities`.
///
/// Missing samples: skipped.
/// \param probabilities 0 to 1, e.g. 0.5 for the median, in any order
/// \return              as many as probabilities; missing where there are no values
/// \par Accuracy 1e-12 of R 4.2.2 quantile(), all nine types
/// \par Complexity selects in a copy: O(n) for each probability
/// \par Reference R. J. Hyndman and Y. Fan 1996, Am Stat 50:361
[[nodiscard]] std::vector<double> quantiles(std::span<const double> values, std::span<const double> probabilities,
                                            QuantileDefinition definition = QuantileDefinition::hyndman_fan_7);

/// As quantiles(), but puts `values` into another order instead of copying them.
[[nodiscard]] std::vector<double> quantiles_in_place(std::span<double> values, std::span<const double> probabilities,
                                                     QuantileDefinition definition = QuantileDefinition::hyndman_fan_7);

/// One quantile, as quantiles().
[[nodiscard]] double quantile(std::span<const double> values, double probability,
                              QuantileDefinition definition = QuantileDefinition::hyndman_fan_7);

}  // namespace jointrom
