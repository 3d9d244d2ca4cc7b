#pragma once

/// \file
/// Values between samples: at given times, on a uniform grid, and on the 0 to 100 % of a cycle. Nothing here filters;
/// going to a much lower rate needs a low-pass first.

#include <jointrom/core/units.hpp>

#include <limits>
#include <span>
#include <vector>

namespace jointrom {

enum class Interpolation {
    linear,  ///< straight between samples
    cubic    ///< spline through the samples, "not-a-knot" ends; a parabola through three samples, a line through two
};

struct InterpolationOptions {
    Interpolation method = Interpolation::linear;
    /// Nothing is put between samples farther apart than this.
    Seconds longest_gap = Seconds(std::numeric_limits<double>::infinity());
};

/// Values of a sampled signal at other times.
///
/// Missing samples: a time between a sample and a missing one gives a missing value, a sample's own time its value. A
/// spline never reaches across a gap.
///
/// \param time_s strictly increasing
/// \param at_s   increasing; outside the samples the result is missing
/// \pre time_s.size() == samples.size()
/// \par Accuracy 1e-12 of numpy.interp 1.24.2 and CubicSpline of SciPy 1.10.1
/// \par Complexity O(samples + times)
/// \par Reference C. de Boor, A Practical Guide to Splines, 1978, chapter IV
[[nodiscard]] std::vector<double> interpolate(std::span<const double> time_s, std::span<const double> samples,
                                              std::span<const double> at_s, InterpolationOptions options = {});

/// Samples at irregular times as samples at times time_s[0] + i / rate, as long as they lie within the recording.
///
/// Missing samples: as interpolate().
/// \param time_s strictly increasing
/// \param rate   of the result, above 0
/// \return       empty without samples
[[nodiscard]] std::vector<double> resample_uniform(std::span<const double> time_s, std::span<const double> samples,
                                                   Hertz rate, InterpolationOptions options = {});

/// One cycle as `count` values at equal parts of its duration, both ends included: 101 for 0, 1, ... 100 %.
///
/// Missing samples: as interpolate().
/// \param cycle uniformly sampled; a single sample is repeated, no sample gives missing values
/// \param count at least 2
/// \par Accuracy 1e-9 relative of numpy.interp 1.24.2 and CubicSpline of SciPy 1.10.1
[[nodiscard]] std::vector<double> time_normalise(std::span<const double> cycle, std::size_t count = 101,
                                                 Interpolation method = Interpolation::linear);

}  // namespace jointrom
