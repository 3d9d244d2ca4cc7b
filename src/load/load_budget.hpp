#pragma once

/// \file
/// How the parts of a load model and of an angle carry over to moment and work. Private.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/load/joint_load.hpp>

#include <cstddef>

namespace jointrom {

/// Of static_moment_nm() at an angle that is exact.
[[nodiscard]] Budget static_moment_budget(const LoadModel& model, Degrees joint_angle);

/// Of the moment at one sample.
///
/// \param series  the moments, of which the inertial part tells whether acceleration counts there
/// \param chances number of independent noisy values that the sample is the largest of; 1 when it was not picked
[[nodiscard]] Budget moment_budget(const AngleTrace& trace, const LoadModel& model, const LoadSeries& series,
                                   std::size_t sample, double chances);

/// Of the work between two samples, movement at either end taken as slow.
[[nodiscard]] Budget work_budget(const AngleTrace& trace, const LoadModel& model, std::size_t first, std::size_t last);

}  // namespace jointrom
