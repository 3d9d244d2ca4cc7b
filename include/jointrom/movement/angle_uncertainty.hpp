#pragma once

/// \file
/// How the uncertainty of a trace carries over to an angle, and to an arc between two angles, measured in it.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/uncertainty.hpp>

namespace jointrom {

/// Whether a budget holds the noise of a single sample of the filtered trace.
enum class MomentaryNoise {
    included,  ///< for an angle at one moment
    left_out   ///< for a mean over time or over repetitions, whose noise is entered by itself
};

/// Uncertainty of one angle: the gain of the sensor (times the distance from neutral, or from the calibration's centre
/// where its zero was kept), its linearity, the zero, and the noise that the low-pass filter leaves.
///
/// \param angle the measured angle, which the uncertainty of the gain is multiplied by
/// \par Reference JCGM 100:2008 (GUM), 5.1
[[nodiscard]] Budget angle_budget(const AngleTrace& trace, Degrees angle,
                                  MomentaryNoise noise = MomentaryNoise::included);

/// The same for the difference of two angles of one recording: the zero cancels, the gain counts for the arc alone
/// because both ends share it, linearity and noise count twice in squares.
[[nodiscard]] Budget arc_budget(const AngleTrace& trace, Degrees arc, MomentaryNoise noise = MomentaryNoise::included);

/// Standard uncertainty of one sample of the angular acceleration, deg/s2: the noise of the sensor as the low-pass
/// filter and the second difference leave it. What the filter takes off a fast movement is not in it.
[[nodiscard]] double acceleration_noise_deg_s2(const AngleTrace& trace);

}  // namespace jointrom
