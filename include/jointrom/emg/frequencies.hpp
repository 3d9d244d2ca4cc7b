#pragma once

/// \file
/// Median and mean frequency of a muscle's electromyogram, and their fall as it tires.

#include <jointrom/core/units.hpp>

#include <cstddef>
#include <limits>
#include <span>

namespace jointrom {

struct Frequencies {
    Hertz median;
    Hertz mean;
};

/// Frequencies of a stretch of a raw, conditioned electromyogram.
///
/// Method: Welch's density with segments of 0.256 s, overlapping by half, Hann window; the median frequency straight
/// between bins.
/// Missing samples: the longest piece without any is used.
/// \return missing for less than 0.25 s
/// \pre rate >= 1000 Hz; below, the spectrum is folded and means nothing
/// \par Accuracy 1e-9 relative of SciPy 1.10.1
/// \par Reference F. B. Stulen and C. J. De Luca 1981, IEEE Trans Biomed Eng 28:515
[[nodiscard]] Frequencies emg_frequencies(std::span<const double> samples, Hertz rate);

/// A straight line through a figure over time.
struct Trend {
    double intercept = std::numeric_limits<double>::quiet_NaN();  ///< at time 0 of the times given
    double slope_per_s = std::numeric_limits<double>::quiet_NaN();
    double slope_u_per_s = std::numeric_limits<double>::quiet_NaN();  ///< standard uncertainty; missing for two points
    double first_to_last_pct = std::numeric_limits<double>::quiet_NaN();  ///< change of the line over all points
    double r_squared = std::numeric_limits<double>::quiet_NaN();
    std::size_t count = 0;

    /// Whether the slope differs from 0 (95 %, two-sided Student test); needs three points.
    [[nodiscard]] bool is_clear() const;
};

/// Least squares.
///
/// Missing samples: pairs with one are skipped. \return missing figures for fewer than two points at different times
[[nodiscard]] Trend trend_of(std::span<const double> time_s, std::span<const double> values);

}  // namespace jointrom
