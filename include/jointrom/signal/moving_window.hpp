#pragma once

/// \file
/// Statistics of a window that moves along a signal.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// What happens where the window reaches beyond the signal.
enum class WindowEnds {
    shrink,  ///< the window is cut off: what lies inside the signal is used
    missing  ///< the result is missing
};

/// All four: sample i of the result is taken over `window` samples around sample i of the signal; of an even number,
/// the odd one out lies before i.
///
/// Missing samples: left out of the window; a window of missing samples gives a missing result.
///
/// \param window samples, at least 1
/// \return       as many values as samples, in their unit
/// \par Complexity O(samples) whatever the window, and without loss of precision: no running sum is subtracted from
[[nodiscard]] std::vector<double> moving_mean(std::span<const double> samples, std::size_t window,
                                              WindowEnds ends = WindowEnds::shrink);

/// Root of the mean of squares.
[[nodiscard]] std::vector<double> moving_rms(std::span<const double> samples, std::size_t window,
                                             WindowEnds ends = WindowEnds::shrink);

/// Standard deviation, with n - 1; missing where the window holds fewer than two samples.
[[nodiscard]] std::vector<double> moving_sd(std::span<const double> samples, std::size_t window,
                                            WindowEnds ends = WindowEnds::shrink);

/// Median; of an even number, the mean of the two middle values. Removes spikes shorter than half a window.
///
/// \par Complexity O(samples times log window) comparisons, and moving window / 2 numbers in memory per sample
[[nodiscard]] std::vector<double> moving_median(std::span<const double> samples, std::size_t window,
                                                WindowEnds ends = WindowEnds::shrink);

}  // namespace jointrom
